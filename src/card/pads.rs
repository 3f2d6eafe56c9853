//! What pads a model takes, shell by shell.

use crate::fit::Candidate;
use crate::profile::{Model, Shell, Size, Supply, Zone};
use crate::supply::price;
use crate::unit::{Id, Money};
use itertools::Itertools;

/// The pads of a shell. They go into no other.
#[derive(Debug, Clone, PartialEq)]
pub struct ShellPads<'a> {
    /// The shell.
    pub shell: &'a Shell,
    /// Its sizes that are there.
    pub sizes: Vec<&'a Size>,
    /// Its zones that have a pad.
    pub zones: Vec<ZonePads<'a>>,
}

/// The pads of a zone.
#[derive(Debug, Clone, PartialEq)]
pub struct ZonePads<'a> {
    /// Where they sit.
    pub zone: Zone,
    /// What it takes to swap them.
    pub minutes: f64,
    /// Whether some size takes another pad than its own.
    pub is_tunable: bool,
    /// The thinnest first.
    pub choices: Vec<PadChoice<'a>>,
}

/// Pads of one thickness.
#[derive(Debug, Clone, PartialEq)]
pub struct PadChoice<'a> {
    /// mm.
    pub thickness: f64,
    /// The sizes that come with it.
    pub standard_in: Vec<&'a Id>,
    /// The sizes that it is on offer for.
    pub on_offer_for: Vec<&'a Id>,
    /// The least that one of them costs; `None` where it isn't on offer.
    pub price: Option<Money>,
    /// Whether it can only be had together with others.
    pub is_in_pack_only: bool,
}

/// The shells in which some size is there, in the order of the profile.
pub(super) fn by_shell<'a>(model: &'a Model, candidates: &[Candidate<'a>]) -> Vec<ShellPads<'a>> {
    let of_shell = |(at, shell): (usize, &'a Shell)| {
        let here = candidates.iter().filter(|candidate| candidate.shell_index == at);
        let sizes = here.map(|candidate| candidate.size).collect_vec();
        let zones = Zone::ALL.into_iter().filter_map(|zone| ZonePads::of(zone, model, shell, &sizes)).collect();
        (!sizes.is_empty()).then_some(ShellPads { shell, sizes, zones })
    };
    model.shells.iter().enumerate().filter_map(of_shell).collect()
}

impl<'a> ZonePads<'a> {
    /// `None` where no size has a pad there.
    fn of(zone: Zone, model: &Model, shell: &'a Shell, sizes: &[&'a Size]) -> Option<Self> {
        let with_pad = sizes.iter().copied().filter(|size| size.standard.get(zone).is_some()).collect_vec();
        let standard = with_pad.iter().filter_map(|size| *size.standard.get(zone));
        let offered = shell.pads.iter().filter(|pad| pad.zone == zone).map(|pad| pad.thickness);
        let thicknesses = standard.chain(offered).sorted_by(f64::total_cmp).dedup_by(|a, b| is_alike(*a, *b));
        let choices = thicknesses.map(|mm| PadChoice::of(zone, mm, shell, &with_pad)).collect_vec();
        let choices = choices.into_iter().filter(PadChoice::is_for_somebody).collect_vec();
        let is_tunable =
            choices.iter().any(|choice| choice.on_offer_for.iter().any(|label| !choice.standard_in.contains(label)));
        let minutes = *model.swap_minutes.get(zone);
        (!with_pad.is_empty()).then_some(Self { zone, minutes, is_tunable, choices })
    }
}

impl<'a> PadChoice<'a> {
    fn of(zone: Zone, thickness: f64, shell: &'a Shell, sizes: &[&'a Size]) -> Self {
        let pads = || shell.pads.iter().filter(|pad| pad.zone == zone && is_alike(pad.thickness, thickness));
        let has = |size: &&&'a Size| size.standard.get(zone).is_some_and(|mm: f64| is_alike(mm, thickness));
        let takes = |size: &&&'a Size| pads().any(|pad| pad.fits_size(&size.label));
        Self {
            thickness,
            standard_in: sizes.iter().filter(has).map(|size| &size.label).collect(),
            on_offer_for: sizes.iter().filter(takes).map(|size| &size.label).collect(),
            price: sizes.iter().filter(takes).filter_map(|size| price(&[(zone, thickness)], shell, size)).min(),
            is_in_pack_only: pads().all(|pad| matches!(pad.supply, Supply::Pack(_))) && pads().next().is_some(),
        }
    }

    fn is_for_somebody(&self) -> bool {
        !(self.standard_in.is_empty() && self.on_offer_for.is_empty())
    }
}

fn is_alike(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}
