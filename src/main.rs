//! The command line: the desk by default, headless commands otherwise.
fn main() {}
