//! Many sheets on several threads.
//!
//! The typesetter uses a thread pool inside. In a shared one a thread that waits would take up another
//! whole sheet, and another inside that, until its stack is full. So each of our threads has a pool of
//! its own with one thread, and takes the next sheet when it is done with one.

use std::sync::Mutex;
use std::sync::PoisonError;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{self, RecvTimeoutError};
use std::time::Duration;

/// Stack of a thread, in bytes: prose may be nested as deeply as an author likes.
const STACK: usize = 16 << 20;

/// How often the typesetter's store is looked through while a sheet is set, and after how many such looks what nobody asked
/// for goes. A sheet of many exercises is laid out many times over, and would keep every layout until it is done.
const LOOK: Duration = Duration::from_millis(100);
const LOOKS: usize = 2;

/// Does `work` on every job, on `threads` threads, and returns the results in the order of the jobs.
pub fn each<J: Sync, R: Send>(jobs: &[J], threads: usize, work: impl Fn(&J) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let results: Mutex<Vec<(usize, R)>> = Mutex::new(Vec::with_capacity(jobs.len()));
    let take = || {
        while let Some((number, job)) = {
            let number = next.fetch_add(1, Ordering::Relaxed);
            jobs.get(number).map(|job| (number, job))
        } {
            let result = work(job);
            results.lock().unwrap_or_else(PoisonError::into_inner).push((number, result));
            // The typesetter's store is shared by all threads and would grow by two megabytes a sheet. What a sheet has in common
            // with the next is set again in less time than a larger store takes to look through, and in two thirds of the memory.
            comemo::evict(0);
        }
    };
    std::thread::scope(|scope| {
        // Nothing is sent: the last of the threads that ends, in whatever way, ends the looks.
        let (working, ended) = mpsc::channel::<()>();
        scope.spawn(move || {
            while ended.recv_timeout(LOOK) == Err(RecvTimeoutError::Timeout) {
                comemo::evict(LOOKS);
            }
        });
        for _ in 0..threads.clamp(1, jobs.len().max(1)) {
            let (working, take) = (working.clone(), &take);
            scope.spawn(move || {
                let _working = working;
                match rayon::ThreadPoolBuilder::new().num_threads(1).stack_size(STACK).build() {
                    Ok(pool) => pool.install(take),
                    // A thread that belongs to no pool takes up nothing while it waits for the shared one.
                    Err(_) => take(),
                }
            });
        }
    });
    let mut results = results.into_inner().unwrap_or_else(PoisonError::into_inner);
    results.sort_by_key(|(number, _)| *number);
    results.into_iter().map(|(_, result)| result).collect()
}
