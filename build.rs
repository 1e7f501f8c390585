//! Tells Cargo to build again when a file is added to the folders that are embedded in the program.

fn main() {
    for folder in ["concepts", "templates"].into_iter().filter(|folder| std::path::Path::new(folder).is_dir()) {
        println!("cargo:rerun-if-changed={folder}");
    }
}
