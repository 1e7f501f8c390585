//! What mapping costs: 1,000 and 100,000 scenario files read from memory, counted, and covered; and texts read for their
//! principles. Time and memory should grow with the number of items and not faster.

use divan::{AllocProfiler, Bencher};
use toehold::concepts::graph::Graph;
use toehold::concepts::{embedded, load_and_check};
use toehold::coverage::{Bits, Item, Matrix, TextReader, of_scenario, smallest};
use toehold::render::{Document, Templates, markdown};
use toehold::scenario::Generator;
use toehold::seed::Seed;
use toehold::technique::{Refusals, Wish};

#[global_allocator]
static ALLOCATIONS: AllocProfiler = AllocProfiler::system();

/// Different files; beyond their number they are read again.
const N_FILES: usize = 40;

fn main() {
    divan::main();
}

#[expect(clippy::expect_used, reason = "a bench without its concepts has nothing to measure")]
fn ready() -> (Graph, Vec<String>) {
    let graph = load_and_check(&embedded()).expect("the program's own concepts are without fault");
    let generator = Generator::new(graph.clone());
    let templates = Templates::new(&[]).expect("the program's own templates work");
    let made = (0..).filter_map(|seed| generator.one(&Wish::default(), Seed(seed), &mut Refusals::default()));
    let texts = made.take(N_FILES).filter_map(|scenario| markdown(&templates, &scenario).ok()).collect();
    (graph, texts)
}

fn items(graph: &Graph, texts: &[String], n: usize) -> Vec<Item> {
    let item = |text: &String| of_scenario(graph, "a.md", &Document::read(text).ok()?).ok();
    texts.iter().cycle().take(n).filter_map(item).collect()
}

/// Files to items: the most of it is reading front matter.
#[divan::bench(args = [1_000, 100_000], sample_count = 1, sample_size = 1)]
fn map_scenarios(bencher: Bencher, n: usize) {
    let (graph, texts) = ready();
    bencher.bench_local(|| items(&graph, &texts, n));
}

/// Items to matrix, gaps and the smallest cover.
#[divan::bench(args = [1_000, 100_000], sample_count = 3, sample_size = 1)]
fn count_and_cover(bencher: Bencher, n: usize) {
    let (graph, texts) = ready();
    let few = items(&graph, &texts, N_FILES);
    let many: Vec<Item> = few.iter().cycle().take(n).cloned().collect();
    let asked = Bits::all(graph.principles().count());
    bencher.bench_local(|| {
        let matrix = Matrix::of(&graph, &many, &asked);
        (smallest(&matrix.rows, &asked), matrix.gaps())
    });
}

/// Texts without front matter, read for their principles.
#[divan::bench(args = [10, 100], sample_count = 1, sample_size = 1)]
fn read_texts(bencher: Bencher, n: usize) {
    let (graph, texts) = ready();
    let reader = TextReader::new(&graph);
    let plain: Vec<&str> = texts.iter().filter_map(|text| Some(text.split_once("\n---\n")?.1)).collect();
    bencher.bench_local(|| plain.iter().cycle().take(n).flat_map(|text| reader.items("a.md", text)).count());
}
