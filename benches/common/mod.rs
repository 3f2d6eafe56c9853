//! What the benches measure with.

use itertools::Itertools;
use std::fs;
use std::process::{Command, Stdio};

/// Mean CPU milliseconds of so many runs of a process, and its peak memory in MB; 0 where the system doesn't tell (other
/// than Linux).
pub(crate) fn process(bin: &str, args: &[&str], runs: u32) -> (f64, f64) {
    let mut peak: f64 = 0.0;
    let before = children_ticks();
    for _ in 0..runs {
        let child = Command::new(bin).args(args).stdout(Stdio::null()).stderr(Stdio::null()).spawn();
        let mut child = child.expect("the program was built for the bench");
        while child.try_wait().expect("a child of ours").is_none() {
            let status = fs::read_to_string(format!("/proc/{}/status", child.id())).unwrap_or_default();
            let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap_or("0");
            peak = peak.max(line.trim().trim_end_matches(" kB").trim().parse().unwrap_or(0.0));
            std::thread::sleep(std::time::Duration::from_micros(500));
        }
    }
    // A tick is 10 ms on every Linux that this runs on; 40 runs make a mean exact to a quarter of one.
    ((children_ticks() - before) * 10.0 / f64::from(runs), peak / 1024.0)
}

/// User and system time of all children so far, in ticks.
pub(crate) fn children_ticks() -> f64 {
    ticks([13, 14])
}

fn ticks(fields_of: [usize; 2]) -> f64 {
    let stat = fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let fields = stat.rsplit(')').next().unwrap_or("").split_whitespace().collect_vec();
    fields_of.iter().filter_map(|at| fields.get(*at)?.parse::<f64>().ok()).sum()
}
