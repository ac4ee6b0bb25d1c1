//! How fast the pages of 5,014 exercises and 1,308 weeks are made, beside a bare loop of the same libraries (read, toml,
//! pulldown-cmark, tera with the theme's own templates, lol_html, write), which writes the same bytes in the same run; and how
//! long `make` takes with its sheets on a tenth of them.
//!
//! `cargo bench --bench make` prints seconds and ratios; ratios are what to compare, the machine is noisy.
//! `STEADYLEAF_BENCH_TIMES` and `STEADYLEAF_BENCH_SHEETS` are how often the demonstration is taken for the one and the other.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at the first surprise"
)]

mod measure;

use std::cell::Cell;
use std::collections::{BTreeMap, HashSet};
use std::fs;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::process::Command;

use lol_html::{HtmlRewriter, Settings, element};
use measure::corpus::{MANY, generate};
use measure::opened::{Opened, TODAY};
use measure::{Took, folder, is_small, number};
use pulldown_cmark::{Options, Parser};
use rayon::ThreadPool;
use rayon::prelude::*;
use steadyleaf::outputs::{self, Address};
use steadyleaf::pages;
use steadyleaf::pages::inspect::{Inspection, inspect};

fn main() {
    let folder = folder();
    let (times, rounds) = if is_small() { (1, 1) } else { (number("STEADYLEAF_BENCH_TIMES", MANY), 3) };
    pages_against_the_bare_loop(&folder.path().join("pages"), times, rounds);
    let times = if is_small() { 1 } else { number("STEADYLEAF_BENCH_SHEETS", MANY / 10) };
    with_sheets(&folder.path().join("sheets"), times);
}

/// What is measured of pages, in the order of the table.
const ROWS: [&str; 4] = ["bare loop", "reading", "review", "pages"];

fn pages_against_the_bare_loop(folder: &Path, times: usize, rounds: usize) {
    let [root, ours, bare] = ["workspace", "ours", "bare"].map(|name| folder.join(name));
    generate(&root, times);
    let mut least = [[Took::FOREVER; ROWS.len()]; 2];
    // The rounds are interleaved, so that a slow minute of the machine meets all rows alike.
    for round in 0..rounds {
        for (column, threads) in [1, 2].into_iter().enumerate() {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            let (reading, opened) = Took::by(|| pool.install(|| Opened::read(&root)));
            let (reviewing, review) = Took::by(|| pool.install(|| opened.edition.review(TODAY)));
            assert!(review.findings.is_empty(), "{:?}", review.findings);
            let addresses = outputs::pages(opened.edition.model());
            for out in [&ours, &bare] {
                let _ = fs::remove_dir_all(out);
                for address in &addresses {
                    fs::create_dir_all(out.join(address.path()).parent().unwrap()).unwrap();
                }
            }
            let (making, ()) = Took::by(|| pool.install(|| make_pages(&opened, &addresses, &ours)));
            let looping = bare_loop(&opened, &root, &addresses, &bare, &pool);
            for (least, took) in least[column].iter_mut().zip([looping, reading, reviewing, making]) {
                *least = least.least(took);
            }
            if round == 0 && column == 0 {
                let bytes = same_bytes(&addresses, &ours, &bare);
                println!(
                    "{} exercises and {} weeks, {} pages, {} MB, best of {rounds} round(s)",
                    opened.edition.model().exercises.len(),
                    opened.edition.model().weeks().count(),
                    addresses.len(),
                    bytes / 1_000_000
                );
            }
        }
    }
    println!("{:<12} {:>26} {:>26}", "seconds", "1 thread (processor)", "2 threads (processor)");
    for (row, name) in ROWS.iter().enumerate() {
        let [one, two] = [0, 1].map(|column| {
            let took: Took = least[column][row];
            format!("{:.2} ({:.2})", took.clock, took.processor)
        });
        println!("{name:<12} {one:>26} {two:>26}");
    }
    for (threads, [bare, reading, review, pages]) in [1, 2].into_iter().zip(least) {
        let without = bare.of(reading + pages);
        let with = bare.of(reading + review + pages);
        println!(
            "{threads} thread(s): read and made at {:.2} of the bare loop's speed ({:.2} by the processor), with the review {:.2} ({:.2})",
            without[0], without[1], with[0], with[1]
        );
    }
}

/// Renders, inspects and writes every page, as `make` does without its photos and sheets.
fn make_pages(opened: &Opened, addresses: &[Address], out: &Path) {
    let (site, edition) = (opened.site(), &opened.edition);
    let pages = site.pages();
    let files: HashSet<String> = outputs::all(edition.model(), edition.theme())
        .iter()
        .flat_map(|output| output.paths(&BTreeMap::new()))
        .collect();
    let make = |address: &Address| {
        let (path, html) = (address.path(), pages.render(address).unwrap());
        let inspection = inspect(&path, &html, "/", &files);
        fs::write(out.join(path), html).unwrap();
        inspection
    };
    let inspections: Vec<Inspection> = addresses.par_iter().map(make).collect();
    let found = pages::findings(edition.model(), &inspections, &files);
    assert!(found.is_empty(), "{found:?}");
}

/// What the libraries alone need for the same pages: each entry is read once, its fields parsed and its prose turned into HTML;
/// each template is filled with what it is filled with by us, which was worked out before; each page is gone through once
/// and written. Nothing is reviewed, linked or drawn.
fn bare_loop(opened: &Opened, root: &Path, addresses: &[Address], out: &Path, pool: &ThreadPool) -> Took {
    /// Pages whose contents are held at a time.
    const HELD: usize = 500;
    let site = opened.site();
    let pages = site.pages();
    let mut took = Took::NOTHING;
    for some in addresses.chunks(HELD) {
        let context = |address| (address, pages.context(address).unwrap());
        let filled: Vec<_> = pool.install(|| some.par_iter().map(context).collect());
        let work = |(address, (template, context)): &(&Address, (&str, tera::Context))| {
            if let Some(entry) = entry_of(address) {
                parse(&root.join(entry));
            }
            let html = pages.templates().render(template, context).unwrap();
            black_box(look(&html));
            fs::write(out.join(address.path()), html).unwrap();
        };
        took += Took::by(|| pool.install(|| filled.par_iter().for_each(work))).0;
    }
    took
}

/// The entry that a page is of.
fn entry_of(address: &Address) -> Option<PathBuf> {
    let name = match address {
        Address::Exercise(id) => format!("exercises/{id}.md"),
        Address::Week { series, id } => format!("series/{series}/{id}.md"),
        Address::Free(id) => format!("pages/{id}.md"),
        _ => return None,
    };
    Some(Path::new("content").join(name))
}

/// Reads an entry, its fields and its prose.
fn parse(path: &Path) {
    let text = fs::read_to_string(path).unwrap();
    let (fields, prose) = text["```toml\n".len()..].split_once("\n```\n").unwrap();
    black_box(toml::de::DeTable::parse_recoverable(fields));
    let options = Options::ENABLE_TABLES | Options::ENABLE_FOOTNOTES | Options::ENABLE_DEFINITION_LIST;
    let mut html = String::with_capacity(prose.len() * 2);
    pulldown_cmark::html::push_html(&mut html, Parser::new_ext(prose, options));
    black_box(html);
}

/// Goes through a page by the same elements as the last look does; the bytes of their attributes.
fn look(html: &str) -> usize {
    const LOOKED_AT: &str =
        "[id], [href], [src], [srcset], img, h1, h2, h3, h4, h5, h6, script, meta[http-equiv]";
    let seen = Cell::new(0);
    let settings = Settings::new().append_element_content_handler(element!(LOOKED_AT, |el| {
        seen.set(seen.get() + el.attributes().iter().map(|a| a.value().len()).sum::<usize>());
        Ok(())
    }));
    let mut rewriter = HtmlRewriter::new(settings, |_: &[u8]| {});
    rewriter.write(html.as_bytes()).unwrap();
    rewriter.end().unwrap();
    seen.get()
}

/// The bytes of all pages, which are the same in both folders.
fn same_bytes(addresses: &[Address], ours: &Path, bare: &Path) -> usize {
    let one = |address: &Address| {
        let [one, other] = [ours, bare].map(|out| fs::read(out.join(address.path())).unwrap());
        assert!(one == other, "{} differs", address.path());
        one.len()
    };
    addresses.iter().map(one).sum()
}

/// `make` with every sheet, from nothing and when little or nothing has changed.
fn with_sheets(root: &Path, times: usize) {
    generate(root, times);
    if is_small() {
        let site = root.join("site.toml");
        let text = fs::read_to_string(&site).unwrap();
        let few = text.replace("[18, 24]", "[18]").replace("[\"a4\", \"letter\"]", "[\"a4\"]");
        assert_ne!(few, text);
        fs::write(site, few).unwrap();
    }
    let entry = root.join("content/exercises/heel-drop.md");
    let edit = |from: &str, to: &str| {
        let text = fs::read_to_string(&entry).unwrap();
        assert!(text.contains(from), "{from}");
        fs::write(&entry, text.replace(from, to)).unwrap();
    };
    println!(
        "make with the sheets of {times} time(s) the demonstration:\n{:<28} {:>7} {:>12} {:>12} {:>12}",
        "", "threads", "clock, s", "processor, s", "most MB"
    );
    for threads in [1, 2] {
        for name in [".ready-sheets", "ready"] {
            let _ = fs::remove_dir_all(root.join(name));
        }
        let tell = |what: &str, today: &str| {
            let (took, kb) = make(root, threads, today);
            println!(
                "{what:<28} {threads:>7} {:>12.2} {:>12.2} {:>12}",
                took.clock,
                took.processor,
                kb / 1024
            );
        };
        tell("nothing made yet", "2027-02-15");
        tell("nothing changed", "2027-02-15");
        tell("another day", "2027-02-16");
        edit("a light thud", "a soft thud");
        tell("one exercise edited", "2027-02-16");
        edit("a soft thud", "a light thud");
        fs::remove_dir_all(root.join("ready")).unwrap();
        tell("no site, all sheets kept", "2027-02-16");
    }
}

/// Runs the program; what it took and the most memory that it held, in KB.
fn make(root: &Path, threads: usize, today: &str) -> (Took, u64) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_steadyleaf"));
    command.args(["make", "--quiet", "--today", today, "--workspace"]).arg(root);
    measure::run(command.env("RAYON_NUM_THREADS", threads.to_string()))
}
