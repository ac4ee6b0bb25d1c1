//! The `steadyleaf` program.

fn main() -> std::process::ExitCode {
    steadyleaf::cli::run()
}
