//! What is heard of a model in the size that a tape picks, which pads help, and where to go when none do.

use super::next::{Next, ShopsNext, Stayed};
use super::people::People;
use super::tries::Try;
use crate::fit::{AxisTable, Candidate, Quote};
use crate::profile::{ByZone, Edge, Reason, Zone};
use crate::range::share;
use itertools::Itertools;
use std::cmp::Reverse;
use std::collections::{BTreeMap, HashMap};

/// What becomes of the heads in the labels of a model, each in the size that a tape picks. Shares are of these heads, with four
/// standard errors of sampling.
#[derive(Debug, Clone, PartialEq)]
pub struct Complaints<'a> {
    /// How many heads that is.
    pub heads: u64,
    /// They fit as it comes.
    pub at_once: Quote,
    /// They fit with some pads on offer; those that fit at once among them.
    pub with_pads: Quote,
    /// Everything that follows from geometry and is heard, or has a rule of the shop; what is heard most often first.
    pub list: Vec<Complaint<'a>>,
}

/// One reason.
#[derive(Debug, Clone, PartialEq)]
pub struct Complaint<'a> {
    /// Why it fails.
    pub reason: Reason,
    /// It is heard with the standard pads.
    pub heard: Quote,
    /// It is heard with the standard pads, and other pads make a good fit.
    pub cured: Quote,
    /// It is heard with the best pads on offer: whatever was heard before, this is what stays.
    pub stays: Quote,
    /// The swaps that cure it in the fewest minutes, the most frequent first.
    pub swaps: Vec<Swap>,
    /// The shop's rules for it, in the order of the file.
    pub shop: Vec<ShopsNext<'a>>,
    /// The model and the size that fit most of those with whom it stays; `None` where nothing fits any of them.
    pub computed: Option<Next<'a>>,
}

/// Pads that cure a complaint.
#[derive(Debug, Clone, PartialEq)]
pub struct Swap {
    /// What is swapped, and which way.
    pub zones: Vec<(Zone, Turn)>,
    /// Of the heads that some pads cure, those that need this.
    pub share: Quote,
}

/// Which way a pad is swapped.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "plain words")]
pub enum Turn {
    Thinner,
    Thicker,
}

/// What no figure of 100 would show is rare: it rounds to 0.
const RARE: f64 = 0.005;

impl Complaint<'_> {
    /// Whether it is hardly ever heard, whatever the pads: of fewer than one head in 200.
    #[must_use]
    pub fn is_rare(&self) -> bool {
        self.is_rare_at_once() && self.hardly_stays()
    }

    /// Whether it is hardly ever heard as the helmet comes.
    #[must_use]
    pub fn is_rare_at_once(&self) -> bool {
        self.heard.value < RARE
    }

    /// Whether it hardly ever stays with the best pads.
    #[must_use]
    pub fn hardly_stays(&self) -> bool {
        self.stays.value < RARE
    }
}

impl<'a> Complaints<'a> {
    /// Of the model at this place of the shelf, with the shop's rules for it.
    pub(super) fn of(
        people: &People<'a>,
        model: usize,
        candidates: &[Candidate<'_>],
        tries: &[Try<'_>],
        rules: &[(usize, &'a Edge)],
    ) -> Self {
        let all = tries.len() as u64;
        let of_all = |count: usize| share(count as u64, all);
        let heard = tries.iter().filter_map(|tried| Some((tried.standard?, tried))).into_group_map();
        let stays = tries.iter().filter_map(|tried| Some((tried.best?, tried))).into_group_map();
        let with = |groups: &HashMap<Reason, Vec<_>>, reason| groups.get(&reason).map_or_else(Vec::new, Clone::clone);
        let complaint = |reason: Reason| {
            let (heard, stays) = (with(&heard, reason), with(&stays, reason));
            let cured = heard.iter().copied().filter(|tried| tried.best.is_none()).collect_vec();
            let counts = [heard.len(), cured.len(), stays.len()];
            let [heard, share_cured, share_stays] = counts.map(of_all);
            let stayed = Stayed::of(people, model, stays);
            let rules = rules.iter().filter(|(_, edge)| edge.reason == reason);
            Complaint {
                reason,
                heard,
                cured: share_cured,
                stays: share_stays,
                swaps: swaps(people, candidates, &cured),
                shop: rules.map(|rule| stayed.by_rule(*rule)).collect(),
                computed: stayed.best(),
            }
        };
        let is_told = |of: &Complaint<'_>| of.heard.value > 0.0 || of.stays.value > 0.0 || !of.shop.is_empty();
        let list = Reason::geometric().iter().copied().map(complaint).filter(is_told);
        let often = |a: &Complaint<'_>, b: &Complaint<'_>| {
            b.heard.value.total_cmp(&a.heard.value).then(b.stays.value.total_cmp(&a.stays.value))
        };
        Self {
            heads: all,
            at_once: of_all(tries.len() - heard.values().map(Vec::len).sum::<usize>()),
            with_pads: of_all(tries.len() - stays.values().map(Vec::len).sum::<usize>()),
            list: list.sorted_by(often).collect(),
        }
    }
}

/// The ways in which heads are cured, by zone: thinner, thicker or as it comes.
fn swaps(people: &People<'_>, candidates: &[Candidate<'_>], cured: &[&Try<'_>]) -> Vec<Swap> {
    let cavities = candidates.iter().map(|candidate| candidate.cavity(people.rules())).collect_vec();
    let mut counts: BTreeMap<Turned, u64> = BTreeMap::new();
    for tried in cured {
        let mut turned = Turned::default();
        let taken = [tried.room.length, tried.room.breadth, tried.room.face_width];
        let candidate = &candidates[tried.size];
        for (axis, table) in candidate.axes.iter().enumerate().filter_map(|(axis, table)| Some((axis, table.as_ref()?)))
        {
            turn(&mut turned, table, cavities[tried.size][axis] - taken[axis], &candidate.size.standard);
        }
        *counts.entry(turned).or_default() += 1;
    }
    let zones = |turned: Turned| Zone::ALL.into_iter().zip(turned).filter_map(|(zone, turn)| Some((zone, turn?)));
    let often = counts.into_iter().sorted_by_key(|(_, count)| Reverse(*count));
    often
        .map(|(turned, count)| Swap { zones: zones(turned).collect(), share: share(count, cured.len() as u64) })
        .collect()
}

/// By zone, in their order, which way a pad is swapped.
type Turned = [Option<Turn>; Zone::ALL.len()];

/// What is swapped on an axis for a head that leaves such a room, mm.
fn turn(turned: &mut Turned, table: &AxisTable, room: f64, standard: &ByZone<Option<f64>>) {
    let cell = table.breaks.partition_point(|edge| *edge <= room);
    for (zone, mm) in &table.options[table.cells[cell].option].pads {
        let more = mm - standard.get(*zone).unwrap_or(*mm);
        if more.abs() > 1e-9 {
            turned[*zone as usize] = Some(if more > 0.0 { Turn::Thicker } else { Turn::Thinner });
        }
    }
}
