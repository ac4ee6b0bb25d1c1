//! Tells Cargo that the built-in theme and the sample are part of the program, new files in them too.

fn main() {
    println!("cargo:rerun-if-changed=src/build.rs");
    println!("cargo:rerun-if-changed=themes");
    println!("cargo:rerun-if-changed=src/workspace/sample");
}
