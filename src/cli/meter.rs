//! How far a long computation is, on standard error: only on a terminal, and only once it takes over a second.

use crate::unit::Progress;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::time::{Duration, Instant};

/// Nothing is shown before.
const PATIENCE: Duration = Duration::from_secs(1);

/// Computes while a bar shows how far it is, and takes the bar away before anything else is written.
pub(super) fn shown<T>(compute: impl FnOnce(&mut (dyn FnMut(Progress) + Send)) -> T) -> T {
    let mut meter = Meter::default();
    let made = compute(&mut |progress| meter.show(progress));
    meter.clear();
    made
}

struct Meter {
    since: Instant,
    bar: Option<ProgressBar>,
}

impl Default for Meter {
    fn default() -> Self {
        Self { since: Instant::now(), bar: None }
    }
}

impl Meter {
    fn show(&mut self, progress: Progress) {
        let [done, of] = [progress.done, progress.of].map(|steps| u64::try_from(steps).unwrap_or(u64::MAX));
        // Nobody knows how much of what comes on a pipe is left.
        if of > 0 && self.bar.is_none() && self.since.elapsed() > PATIENCE {
            let style = ProgressStyle::with_template("{bar:40} {percent:>3} %")
                .unwrap_or_else(|_| ProgressStyle::default_bar());
            // The bar hides itself where standard error is no terminal.
            self.bar = Some(ProgressBar::with_draw_target(Some(of), ProgressDrawTarget::stderr()).with_style(style));
        }
        if let Some(bar) = &self.bar {
            bar.set_position(done);
        }
    }

    fn clear(&self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}
