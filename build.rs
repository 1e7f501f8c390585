//! Tells Cargo to build again when a file is added to the folders that are embedded in the program.

#[expect(clippy::print_stdout, reason = "this is how a build script speaks to Cargo")]
fn main() {
    for folder in ["concepts", "templates"].into_iter().filter(|folder| std::path::Path::new(folder).is_dir()) {
        println!("cargo:rerun-if-changed={folder}");
    }
}
