//! How fast sheets are printed: the demonstration's through the program and through the bare typesetter
//! (the same files, the same options, no inspection), on two threads and on one, in the same run.
//!
//! `cargo bench --bench sheets` prints milliseconds a sheet and ratios; ratios are what to compare, the
//! machine is noisy.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at the first surprise"
)]

mod measure;

use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

use measure::processor_time;
use steadyleaf::model::Model;
use steadyleaf::model::source::Sources;
use steadyleaf::model::words::Words;
use steadyleaf::outputs::{media, sheet};
use steadyleaf::pages::photo;
use steadyleaf::print::{Order, Photo, Photos, Press, Subject, workers};
use steadyleaf::workspace::theme::Theme;
use steadyleaf::{entry, workspace};
use typst::World;
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;

const ROUNDS: usize = 3;

/// Sheets that are printed on one thread and on two.
const SHARED: usize = 200;

/// Sheets that one process prints, to see whether its memory grows.
const MANY: usize = 2_000;

/// Set for the process that prints so many.
const CHILD: &str = "STEADYLEAF_BENCH_MANY";

fn main() {
    let demonstration = Demonstration::read();
    if std::env::var_os(CHILD).is_some() {
        return print_many(&demonstration);
    }
    against_the_bare_typesetter(&demonstration);
    kept_against_new();
    let mut child = Command::new(std::env::current_exe().unwrap());
    let (time, kb) = measure::run(child.env(CHILD, "1"));
    println!(
        "{MANY} sheets in one process, two threads: {} MB at most, {:.1} s",
        kb / 1024,
        time.as_secs_f64()
    );
}

/// The workspace at the root of the repository.
struct Demonstration {
    model: Model,
    sources: Sources,
    words: Words,
    theme: Theme,
    photos: Photos<'static>,
}

impl Demonstration {
    fn read() -> Demonstration {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let texts = workspace::read(root).unwrap();
        let (site, _) = entry::read_site(&texts);
        let theme = Theme::read(root, &site.theme.value).unwrap();
        let language = site.language.value.clone();
        let fluent = theme.text(&format!("words/{language}.ftl")).unwrap();
        let words = Words::read(&language, fluent, theme.lists(&language)).unwrap();
        let (model, _) = entry::read(&texts, site, &words);
        let photos = media::photos(&model).into_iter().map(|shot| {
            let bytes = workspace::photo(root, &shot.file).unwrap();
            let widest = photo::renditions(&bytes, shot.crop).unwrap().pop().unwrap();
            (shot, Photo { extension: widest.extension, bytes: widest.bytes })
        });
        let photos = photos.collect();
        Demonstration { model, sources: texts.sources, words, theme, photos }
    }

    fn press(&self) -> Press<'_> {
        let program = blake3::hash(b"");
        Press::new(&self.model, &self.sources, &self.words, &self.theme, &self.photos, false, &program)
            .unwrap()
    }

    /// Every sheet of its site.
    fn orders(&self) -> Vec<Order<'_>> {
        let order = |sheet: sheet::Sheet| {
            Order::of(Subject::of(&sheet.of, &self.model).unwrap(), sheet.size, sheet.paper)
        };
        sheet::all(&self.model).into_iter().map(order).collect()
    }
}

/// The rows of the table.
#[derive(Clone, Copy)]
enum Row {
    Bare,
    Whole,
    OneThread,
    TwoThreads,
}

impl Row {
    const ALL: [Row; 4] = [Row::Bare, Row::Whole, Row::OneThread, Row::TwoThreads];
}

fn against_the_bare_typesetter(demonstration: &Demonstration) {
    let press = demonstration.press();
    let orders = demonstration.orders();
    let shared: Vec<&Order<'_>> = orders.iter().cycle().take(SHARED).collect();
    let ready: Vec<(_, PdfOptions)> = orders
        .iter()
        .map(|order| {
            let manuscript = press.handout(order).unwrap();
            (press.world(&manuscript).unwrap(), press.options(&manuscript).unwrap())
        })
        .collect();
    println!("{} sheets of the demonstration, best of {ROUNDS} rounds", orders.len());
    // Seconds a sheet, by the clock and by the processor.
    let mut best = [[f64::INFINITY; 2]; 4];
    let mut bytes = [0; 4];
    // The rounds are interleaved, so that a slow minute of the machine meets all rows alike.
    for _ in 0..ROUNDS {
        for row in Row::ALL {
            // What the typesetter remembers of one row would help the next.
            comemo::evict(0);
            let (start, before) = (Instant::now(), processor_time());
            let sizes = match row {
                Row::Bare => workers::each(&ready, 1, |(world, options)| bare(world, options)),
                Row::Whole => workers::each(&orders, 1, |order| whole(&press, order)),
                Row::OneThread => workers::each(&shared, 1, |order| whole(&press, order)),
                Row::TwoThreads => workers::each(&shared, 2, |order| whole(&press, order)),
            };
            let took = [start.elapsed().as_secs_f64(), processor_time() - before];
            for (best, took) in best[row as usize].iter_mut().zip(took) {
                *best = best.min(took / sizes.len() as f64);
            }
            bytes[row as usize] = sizes.iter().sum();
        }
    }
    assert_eq!(bytes[Row::Bare as usize], bytes[Row::Whole as usize], "not the same sheets");
    let names = [
        "bare typesetter, one thread".to_string(),
        "steadyleaf, one thread".to_string(),
        format!("{SHARED} of them, one thread"),
        format!("{SHARED} of them, two threads"),
    ];
    println!("{:<30} {:>12} {:>12}", "milliseconds a sheet", "clock", "processor");
    for (name, [clock, processor]) in names.iter().zip(best) {
        println!("{name:<30} {:>12.2} {:>12.2}", clock * 1e3, processor * 1e3);
    }
    let ratio = |a: Row, b: Row, column: usize| best[a as usize][column] / best[b as usize][column];
    println!(
        "a sheet needs {:.2} of the bare typesetter's time by the clock, {:.2} by the processor",
        ratio(Row::Whole, Row::Bare, 0),
        ratio(Row::Whole, Row::Bare, 1)
    );
    println!(
        "two threads need {:.2} of one thread's time by the clock, {:.2} by the processor",
        ratio(Row::TwoThreads, Row::OneThread, 0),
        ratio(Row::TwoThreads, Row::OneThread, 1)
    );
}

/// Writes, sets, inspects and exports a sheet; its bytes.
fn whole<'m>(press: &Press<'m>, order: &Order<'m>) -> usize {
    press.print(&press.handout(order).unwrap()).unwrap().pdf.len()
}

/// Sets and exports a sheet that is written; its bytes.
fn bare(world: &impl World, options: &PdfOptions) -> usize {
    let document = typst::compile::<PagedDocument>(world).output.unwrap();
    typst_pdf::pdf(&document, options).unwrap().len()
}

fn print_many(demonstration: &Demonstration) {
    let press = demonstration.press();
    let orders = demonstration.orders();
    let many: Vec<&Order<'_>> = orders.iter().cycle().take(MANY).collect();
    workers::each(&many, 2, |order| whole(&press, order));
}

/// `make` of the demonstration when the store holds every sheet, and when it holds none.
fn kept_against_new() {
    let folder = tempfile::tempdir().unwrap();
    let root = folder.path().join("workspace");
    fs::create_dir(&root).unwrap();
    for name in ["site.toml", "content", "themes"] {
        copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join(name), &root.join(name));
    }
    let mut best = [[f64::INFINITY; 2]; 2];
    for _ in 0..ROUNDS {
        let _ = fs::remove_dir_all(root.join(".ready-sheets"));
        for times in &mut best {
            let _ = fs::remove_dir_all(root.join("ready"));
            let before = processor_time();
            let mut command = Command::new(env!("CARGO_BIN_EXE_steadyleaf"));
            command.args(["make", "--quiet", "--today", "2027-03-01", "--workspace"]).arg(&root);
            let (time, _) = measure::run(&mut command);
            for (best, took) in times.iter_mut().zip([time.as_secs_f64(), processor_time() - before]) {
                *best = best.min(took);
            }
        }
    }
    let [new, kept] = best;
    println!(
        "make of the demonstration: {:.2} s with all sheets printed, {:.2} s with all kept: {:.2} of it by the clock, {:.2} by the processor",
        new[0],
        kept[0],
        kept[0] / new[0],
        kept[1] / new[1]
    );
}

fn copy(from: &Path, to: &Path) {
    if from.is_dir() {
        fs::create_dir_all(to).unwrap();
        for entry in fs::read_dir(from).unwrap() {
            let entry = entry.unwrap();
            copy(&entry.path(), &to.join(entry.file_name()));
        }
    } else {
        fs::copy(from, to).unwrap();
    }
}
