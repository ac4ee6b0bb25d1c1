//! How long a sheet of the demonstration takes through the program, beside the bare typesetter with the same template and beside
//! the typesetter with a plain template of its own (the same words and pictures, the same options, no inspection), on one
//! thread and on two, in the same run.
//!
//! `cargo bench --bench sheets` prints milliseconds and ratios; ratios are what to compare, the machine is noisy.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a benchmark may stop at the first surprise"
)]

mod measure;

use std::process::Command;

use measure::corpus::demonstration;
use measure::opened::Opened;
use measure::plain::Plain;
use measure::{Took, is_small};
use steadyleaf::outputs::sheet;
use steadyleaf::print::{Order, Press, Subject, workers};
use typst::World;
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;

/// Set for the process that prints many sheets, to how many.
const CHILD: &str = "STEADYLEAF_BENCH_MANY";

fn main() {
    let opened = Opened::read(demonstration());
    if let Some(many) = std::env::var(CHILD).ok().and_then(|many| many.parse().ok()) {
        return print_many(&opened, many);
    }
    // On one thread and on two the same number of sheets is printed, and by one process many, to see whether it grows.
    let (rounds, shared, many) = if is_small() { (1, 4, 8) } else { (3, 200, 2_000) };
    against_the_bare_typesetter(&opened, rounds, shared);
    let mut child = Command::new(std::env::current_exe().unwrap());
    child.args(std::env::args_os().skip(1));
    let (took, kb) = measure::run(child.env(CHILD, many.to_string()));
    println!(
        "{many} sheets in one process, two threads: {} MB at most, {:.1} s by the clock, {:.1} by the processor",
        kb / 1024,
        took.clock,
        took.processor
    );
}

/// Every sheet of the site; the first few of its weeks and of its exercises for a look.
fn orders(opened: &Opened) -> Vec<Order<'_>> {
    let order = |sheet: sheet::Sheet| {
        Order::of(
            Subject::of(&sheet.of, opened.edition.model()).unwrap(),
            sheet.extent,
            sheet.size,
            sheet.paper,
        )
    };
    let all: Vec<Order<'_>> = sheet::all(opened.edition.model()).into_iter().map(order).collect();
    if !is_small() {
        return all;
    }
    let (weeks, exercises): (Vec<_>, Vec<_>) =
        all.into_iter().partition(|order| matches!(order.subject, Subject::Week(..)));
    weeks.into_iter().take(1).chain(exercises.into_iter().take(3)).collect()
}

/// The rows of the table.
#[derive(Clone, Copy)]
enum Row {
    Plain,
    Bare,
    Whole,
    OneThread,
    TwoThreads,
}

impl Row {
    const ALL: [Row; 5] = [Row::Plain, Row::Bare, Row::Whole, Row::OneThread, Row::TwoThreads];

    fn name(self) -> &'static str {
        match self {
            Row::Plain => "plain template, one thread",
            Row::Bare => "bare typesetter, one thread",
            Row::Whole => "steadyleaf, one thread",
            Row::OneThread => "some of them, one thread",
            Row::TwoThreads => "as many, two threads",
        }
    }
}

/// A sheet that was made.
struct Set {
    pages: usize,
    bytes: usize,
}

fn against_the_bare_typesetter(opened: &Opened, rounds: usize, shared: usize) {
    let press = opened.press();
    let orders = orders(opened);
    let shared: Vec<&Order<'_>> = orders.iter().cycle().take(shared).collect();
    let manuscripts: Vec<_> = orders.iter().map(|order| press.handout(order).unwrap()).collect();
    let ready = manuscripts.iter().map(|m| (press.world(m).unwrap(), press.options(m).unwrap()));
    let ready: Vec<(_, PdfOptions)> = ready.collect();
    let plain = manuscripts.iter().map(|m| (Plain::of(press.world(m).unwrap()), press.options(m).unwrap()));
    let plain: Vec<(_, PdfOptions)> = plain.collect();
    println!("{} sheets of the demonstration, best of {rounds} round(s)", orders.len());
    let mut least = [Took::FOREVER; 5];
    let mut made: [Vec<Set>; 5] = Default::default();
    // The rounds are interleaved, so that a slow minute of the machine meets all rows alike.
    for _ in 0..rounds {
        for row in Row::ALL {
            // What the typesetter remembers of one row would help the next.
            comemo::evict(0);
            let (took, sets) = Took::by(|| match row {
                Row::Plain => workers::each(&plain, 1, |(world, options)| bare(world, options)),
                Row::Bare => workers::each(&ready, 1, |(world, options)| bare(world, options)),
                Row::Whole => workers::each(&orders, 1, |order| whole(&press, order)),
                Row::OneThread => workers::each(&shared, 1, |order| whole(&press, order)),
                Row::TwoThreads => workers::each(&shared, 2, |order| whole(&press, order)),
            });
            least[row as usize] = least[row as usize].least(took);
            made[row as usize] = sets;
        }
    }
    let sum = |row: Row, of: fn(&Set) -> usize| made[row as usize].iter().map(of).sum::<usize>();
    assert_eq!(sum(Row::Bare, |s| s.bytes), sum(Row::Whole, |s| s.bytes), "not the same sheets");
    println!(
        "{:<30} {:>8} {:>14} {:>14} {:>14}",
        "milliseconds", "pages", "clock, sheet", "processor", "of a page"
    );
    for row in Row::ALL {
        let (took, pages) = (least[row as usize], sum(row, |s| s.pages));
        let each = |seconds: f64, of: usize| seconds * 1e3 / of as f64;
        let sheets = made[row as usize].len();
        println!(
            "{:<30} {pages:>8} {:>14.2} {:>14.2} {:>14.2}",
            row.name(),
            each(took.clock, sheets),
            each(took.processor, sheets),
            each(took.processor, pages)
        );
    }
    let ratio = |a: Row, b: Row| least[a as usize].of(least[b as usize]);
    for (what, [clock, processor]) in [
        ("a sheet needs of the plain template's time", ratio(Row::Whole, Row::Plain)),
        ("a sheet needs of the bare typesetter's time", ratio(Row::Whole, Row::Bare)),
        ("two threads need of one thread's time", ratio(Row::TwoThreads, Row::OneThread)),
    ] {
        println!("{what}: {clock:.2} by the clock, {processor:.2} by the processor");
    }
}

/// Writes, sets, inspects and exports a sheet.
fn whole<'m>(press: &Press<'m>, order: &Order<'m>) -> Set {
    let printed = press.print(&press.handout(order).unwrap()).unwrap();
    Set { pages: printed.pages as usize, bytes: printed.pdf.len() }
}

/// Sets and exports a sheet that is written.
fn bare(world: &impl World, options: &PdfOptions) -> Set {
    let document = typst::compile::<PagedDocument>(world).output.unwrap();
    Set { pages: document.pages().len(), bytes: typst_pdf::pdf(&document, options).unwrap().len() }
}

fn print_many(opened: &Opened, many: usize) {
    let press = opened.press();
    let orders = orders(opened);
    let many: Vec<&Order<'_>> = orders.iter().cycle().take(many).collect();
    workers::each(&many, 2, |order| whole(&press, order));
}
