//! Doubts about profiles: what could be computed from, and yet is hardly what the shop meant. One rule a file.
//!
//! A rule gets a case (the draft, what of it can be trusted, sampled heads) and returns what goes against it. It names
//! places, never columns, and stays silent about values that only stand in for something unreadable: those have a
//! problem of their own.

mod approval_missing;
mod attribute_missing;
mod dead_end;
mod empty_pack;
mod implausible_value;
mod interior_contradiction;
mod label_contradiction;
mod pad_for_none;
mod parts;
mod population_doubtful;
mod rule_against_attributes;
mod rule_against_geometry;
mod rule_against_size;
mod rule_circle;
mod rule_to_itself;
mod rule_twice;
mod rule_without_size;
mod sample;
mod shell_contradiction;
mod size_gap;
mod size_order;
mod size_overlap;
mod standard_not_offered;
mod swap_without_minutes;
mod thickness_twice;
mod unhandled_reason;
mod unreachable_model;
mod unused_file;

use crate::catalogue::{AGREEMENTS, Catalogue, Draft, Look, Origin, load};
use crate::diag::{Code, Diagnostic, Sources, nearest};
use crate::profile::{Model, Place, Placed, Reason};
use crate::unit::Id;
use sample::Sample;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::AddAssign;

/// One rule.
#[derive(Clone, Copy)]
pub struct Rule {
    /// The code of its findings; `docs/diagnostics.md` has a section of this name.
    pub code: Code,
    find: fn(&Case<'_>) -> Vec<Diagnostic>,
}

/// Every rule, in the order of their codes.
pub const RULES: &[Rule] = &[
    approval_missing::RULE,
    attribute_missing::RULE,
    dead_end::RULE,
    empty_pack::RULE,
    implausible_value::RULE,
    interior_contradiction::RULE,
    label_contradiction::RULE,
    pad_for_none::RULE,
    population_doubtful::RULE,
    rule_against_attributes::RULE,
    rule_against_geometry::RULE,
    rule_against_size::RULE,
    rule_circle::RULE,
    rule_to_itself::RULE,
    rule_twice::RULE,
    rule_without_size::RULE,
    shell_contradiction::RULE,
    size_gap::RULE,
    size_order::RULE,
    size_overlap::RULE,
    standard_not_offered::RULE,
    swap_without_minutes::RULE,
    thickness_twice::RULE,
    unhandled_reason::RULE,
    unreachable_model::RULE,
    unused_file::RULE,
];

/// Everything that is wrong or doubtful with a set of profiles, in order of place; what has no place comes first.
#[must_use]
pub fn check(draft: &Draft, sources: &Sources) -> Vec<Diagnostic> {
    let look = Look::new(draft, sources);
    let mut found = draft.problems.clone();
    found.extend(AGREEMENTS.iter().flat_map(|agreement| (agreement.find)(&look)));
    let lender = if look.has_sound_shop() { None } else { load(&Origin::BuiltIn, &mut Sources::default()).ok() };
    let trusted = look.sound_part(lender.as_ref());
    if let Some(trusted) = &trusted
        && let Some(sample) = Sample::of(trusted)
    {
        let case = Case::new(&look, trusted, &sample);
        found.extend(RULES.iter().flat_map(|rule| (rule.find)(&case)));
    }
    found.sort_by_cached_key(|problem| (problem.place.as_ref().map(|label| label.span), problem.code));
    found
}

/// How much was looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tally {
    /// Files that could be read.
    pub files: usize,
    /// Models in them.
    pub models: usize,
    /// Rules of the shop.
    pub rules: usize,
    /// Populations.
    pub populations: usize,
    /// Whether the demo range lent its assumptions, because there were none that could be used.
    pub has_lent: bool,
}

impl Tally {
    /// What there is in a draft, without what is lent to it.
    #[must_use]
    pub fn of(draft: &Draft, sources: &Sources) -> Self {
        let own = |place: &Place| draft.files.iter().any(|file| file.source == place.source && !file.is_lent);
        Self {
            files: draft.files.iter().filter(|file| !file.is_lent).count(),
            models: draft.models.len(),
            rules: draft.edges.len(),
            populations: draft.populations.iter().filter(|population| own(&population.place)).count(),
            has_lent: draft.files.iter().any(|file| file.is_lent) || !Look::new(draft, sources).has_sound_shop(),
        }
    }
}

impl AddAssign for Tally {
    fn add_assign(&mut self, other: Self) {
        self.files += other.files;
        self.models += other.models;
        self.rules += other.rules;
        self.populations += other.populations;
        self.has_lent |= other.has_lent;
    }
}

/// What a rule looks at.
struct Case<'a> {
    look: &'a Look<'a>,
    /// What of the set can be trusted.
    trusted: &'a Catalogue,
    /// Heads in the trusted models.
    sample: &'a Sample<'a>,
    models: BTreeMap<&'a Id, &'a Placed<Model>>,
    /// Which models have a rule for which reason.
    ruled: BTreeSet<(&'a Id, Reason)>,
    /// Which models a rule leads to.
    targets: BTreeSet<&'a Id>,
}

impl<'a> Case<'a> {
    fn new(look: &'a Look<'a>, trusted: &'a Catalogue, sample: &'a Sample<'a>) -> Self {
        let edges = || look.draft.edges.iter().map(|edge| &edge.value);
        let models = look.draft.models.iter().filter(|model| !look.is_doubled(&model.value.id));
        let models = models.map(|model| (&model.value.id, model)).collect();
        let targets = edges().map(|edge| &edge.to).collect();
        let mut case = Self { look, trusted, sample, models, ruled: BTreeSet::new(), targets };
        // A rule with a mistyped reason or model is no rule yet, but the shop has one there.
        let unclear = look.draft.unclear.iter().filter_map(|rule| Some((&rule.from, rule.meant?)));
        let ruled = edges().map(|edge| (&edge.from, edge.reason)).chain(unclear);
        case.ruled = ruled.map(|(from, reason)| (case.meant(from), reason)).collect();
        case
    }

    /// The model that a rule means: the nearest one where there is none of this name.
    fn meant(&self, named: &'a Id) -> &'a Id {
        if self.models.contains_key(named) || self.look.is_doubled(named) {
            return named;
        }
        let near = nearest(named.as_str(), self.models.keys().map(|id| id.as_str()));
        near.and_then(|near| self.models.keys().find(|id| id.as_str() == near)).map_or(named, |id| *id)
    }

    /// The models that can be trusted as they stand; of two with one id neither.
    fn sound_models(&self) -> impl Iterator<Item = &'a Placed<Model>> {
        let models = self.look.draft.models.iter().filter(|model| !self.look.is_doubled(&model.value.id));
        models.filter(|model| self.look.is_sound(&model.place))
    }

    /// The model of this id, whatever is wrong with it; none where two have it, because nobody can tell which is meant.
    fn model(&self, id: &Id) -> Option<&'a Placed<Model>> {
        self.models.get(id).copied()
    }

    fn has_rule(&self, model: &Id, reason: Reason) -> bool {
        self.ruled.contains(&(model, reason))
    }

    fn is_target(&self, model: &Id) -> bool {
        self.targets.contains(model)
    }
}
