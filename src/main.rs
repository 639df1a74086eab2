//! The command line: the desk by default, headless commands otherwise.

#[cfg(feature = "desk")]
fn main() -> std::process::ExitCode {
    use pintle::desk::shell::{DeskOptions, run};
    // Minimal until the command line lands: [SCENARIO] [--screenshot FILE] [--after SECONDS].
    let mut options = DeskOptions::default();
    let mut args = std::env::args().skip(1);
    while let Some(arg) = args.next() {
        match arg.as_str() {
            "desk" => {}
            "--screenshot" => options.screenshot = args.next().map(Into::into),
            "--after" => options.after_s = args.next().and_then(|s| s.parse().ok()).unwrap_or(0.0),
            _ => options.scenario = Some(arg),
        }
    }
    run(options)
}

#[cfg(not(feature = "desk"))]
fn main() {}
