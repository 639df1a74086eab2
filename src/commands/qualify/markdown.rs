//! The guide as Markdown.

use super::frame::{ABOUT, Frame, MARKDOWN_BEGINS, by_case, summary};
use crate::qualify::{Report, Row, Tally, Verdict};

/// A cell: no bars, no line ends.
fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace(['\n', '\r'], " ")
}

/// The whole report.
pub fn text(report: &Report, frame: &Frame) -> String {
    let mut out = String::from(MARKDOWN_BEGINS);
    let mut line = |text: String| {
        out.push_str(&text);
        out.push('\n');
    };
    line(format!("\nPintle {}, {}\n", frame.version, frame.date));
    line(format!("**{}.**\n", summary(&report.tally())));
    for about in ABOUT {
        line(format!("{about}\n"));
    }
    line("| section | rows | within | known misses | other misses | from memory | contested |".to_owned());
    line("|---|---:|---:|---:|---:|---:|---:|".to_owned());
    for (section, part) in &report.sections {
        let t = Tally::of(&part.rows);
        line(format!(
            "| {} | {} | {} | {} | {} | {} | {} |",
            section.title(),
            t.rows,
            t.within,
            t.known,
            t.new,
            t.near_memory + t.off_memory,
            t.reported
        ));
    }
    line("\n## Out of tolerance\n".to_owned());
    let misses: Vec<&Row> = report.rows().filter(|r| r.verdict() == Verdict::Out).collect();
    if misses.is_empty() {
        line("None.".to_owned());
    }
    for row in misses {
        line(format!(
            "- `{}`: got {}, expected {} {}: {}",
            row.id,
            row.got_text(),
            row.expected_text(),
            row.unit,
            row.verdict_words()
        ));
    }
    for (section, part) in &report.sections {
        line(format!("\n## {}", section.title()));
        for group in by_case(&part.rows) {
            line(format!("\n### {}\n", group.name));
            line(format!("Source ({}): {}\n", group.standing.words(), group.source));
            line("| quantity | conditions | expected | got | unit | verdict |".to_owned());
            line("|---|---|---:|---:|---|---|".to_owned());
            for row in group.rows {
                let note = row.note.as_ref().map_or_else(String::new, |n| format!(" (note: {n})"));
                let cells = [
                    &row.quantity,
                    &row.conditions,
                    &row.expected_text(),
                    &row.got_text(),
                    row.unit,
                    &(row.verdict_words() + &note),
                ];
                line(format!("| {} |", cells.map(cell).join(" | ")));
            }
        }
    }
    out
}
