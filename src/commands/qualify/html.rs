//! The guide as one HTML file that needs nothing else: style and pictures are inside.

use super::escape::escape;
use super::frame::{ABOUT, Frame, Group, HTML_BEGINS, by_case, summary};
use super::svg;
use crate::qualify::{Report, Row, Tally, Verdict};

const STYLE: &str = "\
:root{color-scheme:light}\
body{font:15px/1.5 system-ui,-apple-system,'Segoe UI',Roboto,sans-serif;color:#1c2226;background:#fff;margin:0 auto;\
max-width:1290px;padding:28px 32px 80px}\
h1{font-size:28px;margin:0 0 2px}h2{font-size:22px;margin:52px 0 6px;padding-top:10px;border-top:2px solid #1c2226}\
h3{font-size:16px;margin:30px 0 0}p{max-width:88ch;margin:8px 0}\
.meta,.source{color:#4a545b}.source{margin:0 0 6px}\
.summary{font-size:18px;font-weight:600;margin:16px 0}\
table{border-collapse:collapse;width:100%;margin:4px 0 0;font-variant-numeric:tabular-nums}\
th,td{padding:3px 10px 3px 0;text-align:left;vertical-align:top;border-bottom:1px solid #e3e6e8}\
th{font-weight:600;border-bottom:1px solid #8b959c;white-space:nowrap}\
.n{text-align:right;white-space:nowrap}.strip{display:block;margin-top:2px}\
.rows{table-layout:fixed}.rows col.q{width:20%}.rows col.c{width:26%}.rows col.e{width:12%}.rows col.g{width:7%}\
.rows col.u{width:8%}.rows col.s{width:164px}\
.counts{width:auto}.counts td,.counts th{padding-right:28px}\
.out{color:#a84300;font-weight:600}.mem{color:#4a545b}.open td{border-bottom:0;padding-bottom:0}.why td{font-size:13px;color:#4a545b;padding-top:0}\
nav ul{columns:3;column-gap:32px;padding-left:18px;margin:8px 0}nav li{break-inside:avoid}\
a{color:#005a8c}.plots{display:grid;grid-template-columns:1fr 1fr;gap:20px 28px;margin:18px 0}\
figure{margin:0}figcaption{font-weight:600}\
.plot{width:100%;height:auto}\
@media (max-width:900px){.plots{grid-template-columns:1fr}nav ul{columns:1}}\
@media print{body{padding:0;font-size:11px}h2{break-before:page}tr,figure{break-inside:avoid}thead{display:table-header-group}\
.plots{grid-template-columns:1fr 1fr}a{color:inherit;text-decoration:none}}";

/// The whole report.
pub fn text(report: &Report, frame: &Frame) -> String {
    let tally = report.tally();
    let mut out = String::from(HTML_BEGINS);
    out.push_str(&format!(
        "<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n\
         <title>Pintle: qualification guide</title>\n<style>{STYLE}</style>\n</head>\n<body>\n\
         <h1>Qualification guide</h1>\n<p class=\"meta\">Pintle {}, {}</p>\n<p class=\"summary\">{}.</p>\n",
        escape(frame.version),
        escape(&frame.date),
        escape(&summary(&tally))
    ));
    for about in ABOUT {
        out.push_str(&format!("<p>{}</p>\n", escape(about)));
    }
    out.push_str(&counts(report));
    out.push_str(&misses(report));
    out.push_str(&contents(report));
    for (section, part) in &report.sections {
        out.push_str(&format!("<h2 id=\"{}\">{}</h2>\n", section.key(), section.title()));
        out.push_str(&format!("<p class=\"meta\">{}.</p>\n", escape(&summary(&Tally::of(&part.rows)))));
        if !part.plots.is_empty() {
            out.push_str("<div class=\"plots\">\n");
            for plot in &part.plots {
                out.push_str(&format!(
                    "<figure><figcaption>{}</figcaption>{}</figure>\n",
                    escape(&plot.title),
                    svg::plot(plot)
                ));
            }
            out.push_str("</div>\n");
        }
        for group in by_case(&part.rows) {
            out.push_str(&case(&group));
        }
    }
    out + "</body>\n</html>\n"
}

fn counts(report: &Report) -> String {
    let mut out = String::from(
        "<table class=\"counts\">\n<thead><tr><th>Section</th><th class=\"n\">Rows</th><th class=\"n\">Within</th>\
         <th class=\"n\">Known misses</th><th class=\"n\">Other misses</th><th class=\"n\">From memory</th><th class=\"n\">Contested</th>\
         </tr></thead>\n<tbody>\n",
    );
    for (section, part) in &report.sections {
        let t = Tally::of(&part.rows);
        out.push_str(&format!("<tr><td><a href=\"#{}\">{}</a></td>", section.key(), section.title()));
        for n in [t.rows, t.within, t.known, t.new, t.near_memory + t.off_memory, t.reported] {
            out.push_str(&format!("<td class=\"n\">{n}</td>"));
        }
        out.push_str("</tr>\n");
    }
    out + "</tbody>\n</table>\n"
}

/// The exceptions by name, ahead of everything: who reads one page reads this one.
fn misses(report: &Report) -> String {
    let rows: Vec<&Row> = report.rows().filter(|r| r.verdict() == Verdict::Out).collect();
    let mut out = format!("<h2 id=\"misses\">Out of tolerance: {}</h2>\n", rows.len());
    if rows.is_empty() {
        return out + "<p>Every row is within its tolerance.</p>\n";
    }
    // One reason often explains many rows: say it once.
    let mut groups: Vec<(String, Vec<&Row>)> = Vec::new();
    for row in rows {
        let reason = row.known.clone().unwrap_or_else(|| "No reason is known yet".to_owned());
        match groups.iter_mut().find(|(r, _)| *r == reason) {
            Some((_, list)) => list.push(row),
            None => groups.push((reason, vec![row])),
        }
    }
    for (reason, rows) in groups {
        let rows: Vec<String> = rows
            .iter()
            .map(|r| {
                let at = if r.conditions.is_empty() { String::new() } else { format!(", {}", r.conditions) };
                let words = format!("{}: {}{at}", r.case, r.quantity);
                let got = match r.got {
                    Some(_) => format!("got {}, expected {} {}", r.got_text(), r.expected_text(), r.unit),
                    None => "not modelled yet".to_owned(),
                };
                format!("<li><a href=\"#{}\">{}</a>: {}</li>\n", escape(&r.id), escape(&words), escape(&got))
            })
            .collect();
        out.push_str(&format!("<h3>{}</h3>\n<ul>\n{}</ul>\n", escape(&reason), rows.concat()));
    }
    out
}

/// Place of a group on the page: a case may come in two pieces, so it is named by its first row.
fn anchor(group: &Group) -> String {
    group.rows.first().map_or_else(String::new, |row| format!("case-{}", row.id.replace('/', "-")))
}

fn contents(report: &Report) -> String {
    let mut out = String::from("<nav aria-label=\"Cases\">\n<h2>Cases</h2>\n");
    for (section, part) in &report.sections {
        out.push_str(&format!("<h3>{}</h3>\n<ul>\n", section.title()));
        for group in by_case(&part.rows) {
            let t = Tally::of(group.rows.iter().copied());
            let count = match t.out() {
                0 => format!("{}", t.rows),
                n => format!("{}, <span class=\"out\">{n} out</span>", t.rows),
            };
            out.push_str(&format!(
                "<li><a href=\"#{}\">{}</a> ({count})</li>\n",
                escape(&anchor(&group)),
                escape(group.name)
            ));
        }
        out.push_str("</ul>\n");
    }
    out + "</nav>\n"
}

fn case(group: &Group) -> String {
    let mut out = format!(
        "<h3 id=\"{}\">{}</h3>\n<p class=\"source\">{}: {}</p>\n<table class=\"rows\">\n<colgroup><col class=\"q\"/>\
         <col class=\"c\"/><col class=\"e\"/><col class=\"g\"/><col class=\"u\"/><col class=\"s\"/><col/></colgroup>\n\
         <thead><tr><th>Quantity</th><th>Conditions</th><th class=\"n\">Expected</th><th class=\"n\">Got</th>\
         <th>Unit</th><th>In the band</th><th>Verdict</th></tr></thead>\n<tbody>\n",
        escape(&anchor(group)),
        escape(group.name),
        capital(group.standing.words()),
        escape(group.source)
    );
    for row in &group.rows {
        out.push_str(&self::row(row));
    }
    out + "</tbody>\n</table>\n"
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |c| c.to_uppercase().collect::<String>() + letters.as_str())
}

fn row(row: &Row) -> String {
    let missing = if row.got.is_none() { "not modelled yet" } else { "out of tolerance" };
    let verdict = match (row.verdict(), &row.known) {
        (Verdict::Within, _) => escape(&row.verdict_words()),
        (Verdict::NearMemory | Verdict::OffMemory | Verdict::Reported, _) => {
            format!("<span class=\"mem\">{}</span>", escape(&row.verdict_words()))
        }
        (Verdict::Out, Some(_)) => format!("<span class=\"out\">{missing}</span>, known"),
        (Verdict::Out, None) => format!("<span class=\"out\">{missing}</span>"),
    };
    // Reason and remark stand under the row over the whole width: in a cell they would make it tall.
    let mut under = Vec::new();
    if let Some(reason) = row.known.as_ref().filter(|_| row.verdict() == Verdict::Out) {
        under.push(format!("<span class=\"out\">Known:</span> {}", escape(reason)));
    }
    under.extend(row.note.as_ref().map(|note| format!("Note: {}", escape(note))));
    let (class, why) = match under.is_empty() {
        true => ("", String::new()),
        false => (
            " class=\"open\"",
            format!("<tr class=\"why\"><td colspan=\"7\">{}</td></tr>\n", under.join(" ")),
        ),
    };
    format!(
        "<tr id=\"{}\"{class}><td>{}</td><td>{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td><td>{}</td><td>{}</td>\
         <td>{verdict}</td></tr>\n{why}",
        escape(&row.id),
        escape(&row.quantity),
        escape(&row.conditions),
        escape(&row.expected_text()),
        escape(&row.got_text()),
        escape(row.unit),
        svg::strip(row)
    )
}
