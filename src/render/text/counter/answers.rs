//! What can be answered.

use super::super::page::{Page, fixed, percent};
use crate::fit::Quote;
use crate::profile::{Nature, Reason};
use itertools::Itertools;

/// Everything that can be answered.
pub const COUNTER_HELP: &str = "
  f                   it fits: every check passed, the stops first
  s1 to s4            a stop: the model in this size is out, whatever the pads
  1 to 10             it fails, and other pads or another helmet may help
  11 crown-presses      12 crown-gap          13 ear-pinch
  14 spectacles-clash   15 chin-touches-bar   16 view-blocked
  17 rear-edge-in-neck  18 too-heavy          19 too-noisy
  20 over-budget        21 dislikes-it
                      reasons can be written out, or begun: temples, cheeks-l
  p ZONE=MM ...       other pads in that helmet: p sides=10 cheeks=28
  t MODEL SIZE        another helmet, and behind it pads that are not standard:
                      t wexmarsh-one L sides=10
  n                   the customer doesn't want to put this model on: it is out
  m MEASURE=LENGTH    something was measured: m breadth=152, m length=19.6cm±0.2
  b                   takes the last answer back; a stop stays
  e                   ends the session: the customer leaves, or it fits
  q                   leaves the session open, to be resumed
";

/// The answers to a helmet on the head, with how often each is heard: that it fits, then the geometric reasons.
pub(super) fn offered(page: &mut Page, heard: &[Quote]) {
    let stops = Reason::ALL.into_iter().filter(|reason| reason.nature() == Nature::Stop);
    let stops = stops.enumerate().map(|(at, reason)| format!("s{} {}", at + 1, reason.id())).collect_vec();
    for (at, pair) in stops.chunks(2).enumerate() {
        let lead = if at == 0 { "  stop      " } else { "            " };
        page.line(&format!("{lead}{}{}", fixed(&pair[0], 34), pair.get(1).map_or("", String::as_str)));
    }
    let answer = |(at, reason): (usize, &Reason)| {
        let chance = heard.get(at + 1).map_or_else(String::new, |chance| percent(chance.value));
        format!("{:>2} {} {chance:>5}", at + 1, fixed(reason.id(), 20))
    };
    let answers = Reason::geometric().iter().enumerate().map(answer).collect_vec();
    let half = answers.len().div_ceil(2);
    for (at, left) in answers[..half].iter().enumerate() {
        let lead = if at == 0 { "  fails     " } else { "            " };
        page.line(&format!("{lead}{}{}", fixed(left, 34), answers.get(half + at).map_or("", String::as_str)));
    }
    let fits = heard.first().map_or_else(String::new, |chance| percent(chance.value));
    page.line(&format!("  answer     f it fits {fits:>15}     ? shows all that can be answered"));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_help_names_every_reason_beyond_pads_with_its_number() {
        let beyond = Reason::ALL.into_iter().enumerate().filter(|(_, reason)| reason.nature() == Nature::Experience);
        for (at, reason) in beyond {
            assert!(COUNTER_HELP.contains(&format!("{} {}", at + 1, reason.id())), "{}", reason.id());
        }
        assert!(COUNTER_HELP.lines().all(|line| line.chars().count() <= 80));
    }
}
