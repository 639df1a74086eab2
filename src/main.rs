//! The command line: the desk by default, headless commands otherwise.

fn main() -> std::process::ExitCode {
    pintle::commands::main(std::env::args_os())
}
