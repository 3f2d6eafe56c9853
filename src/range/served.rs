//! Who is served, and by what.

use super::answers::Answers;
use super::best::best_of;
use super::count::Counted;
use super::gaps::{Gaps, gaps};
use super::map::Map;
use super::prices::limits;
use super::shelf::{Shelf, taken};
use super::spread::{Spread, spreads};
use super::tally::{ColumnSet, Pattern, Tally, share};
use crate::catalogue::Catalogue;
use crate::fit::Quote;
use crate::head::{Particles, shape_index};
use crate::profile::{Kind, Model};
use crate::unit::Money;
use itertools::Itertools;

/// A range over all customers. Shares are of all customers, with four standard errors of sampling; figures without a spread
/// take the profiles at their word.
#[derive(Debug, Clone, PartialEq)]
pub struct Served<'a> {
    /// How many heads were counted.
    pub heads: u64,
    /// On how many of them "best at", the gaps and the spreads rest.
    pub kept: usize,
    /// Served by something with its standard pads.
    pub standard: Figure,
    /// Served by something with some pads on offer.
    pub on_offer: Figure,
    /// Served by helmets of a type alone.
    pub by_kind: Vec<Alone<Kind>>,
    /// Served by helmets up to a price alone.
    pub by_price: Vec<Alone<Money>>,
    /// Each model, in the order of the shelf.
    pub models: Vec<Own<'a>>,
    /// Each family, in the order of its first model: maker and name.
    pub families: Vec<(&'a str, &'a str, Own<'a>)>,
    /// Of the customers whom one model serves (first index), the share that another serves, too (second index).
    pub overlap: Vec<Vec<f64>>,
    /// Where nothing fits.
    pub gaps: Gaps<'a>,
    /// By circumference and shape index.
    pub map: Map,
}

/// A share with what it may be when profiles are off as far as they say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// The profiles at their word.
    pub quote: Quote,
    /// The profiles off.
    pub spread: Spread,
}

/// What some helmets alone serve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alone<T> {
    /// Which they are.
    pub which: T,
    /// How many models they are.
    pub models: usize,
    /// Served with standard pads.
    pub standard: Quote,
    /// Served with some pads on offer.
    pub on_offer: Quote,
}

/// What a model or a family does on the shelf.
#[derive(Debug, Clone, PartialEq)]
pub struct Own<'a> {
    /// Its models.
    pub models: Vec<&'a Model>,
    /// Served with standard pads.
    pub standard: Quote,
    /// Served with some pads on offer.
    pub on_offer: Figure,
    /// Served by it and by nothing else, with the pads on offer of all.
    pub only: Figure,
    /// Those whom it fits most evenly of all.
    pub best: Quote,
    /// Quartiles of these customers, the lower and the upper one: circumference in mm and shape index. `None` where they
    /// are too few to say.
    pub best_at: Option<[[f64; 2]; 2]>,
}

/// Fewer heads than these have no quartiles worth telling.
const FEW: usize = 50;

/// Looks at a shelf on which heads were counted.
#[must_use]
pub fn served<'a>(catalogue: &Catalogue, shelf: &Shelf<'a>, counted: &Counted, seed: u64) -> Served<'a> {
    let tally = &counted.tally;
    let models = shelf.columns.iter().map(|column| column.model).collect_vec();
    let families = models.iter().map(|model| (model.maker.as_str(), model.family.as_str())).unique().collect_vec();
    let own = (0..models.len()).map(|column| vec![column]);
    let of_family = |(maker, family): &(&str, &str)| {
        models.iter().positions(|model| model.maker == *maker && model.family == *family).collect_vec()
    };
    let groups = own.chain(families.iter().map(of_family)).map(Group::new).collect_vec();
    let spreads = spreads(shelf, &counted.kept, seed, |tally| figures(tally, &groups));
    let figure = |at: usize, quote| Figure { quote, spread: spreads[at] };
    let taken = taken(&counted.kept, shelf.rules.outline);
    let answers = Answers::of(shelf, &taken, None);
    let best = best_of(shelf, &taken, &answers);
    let is_served = answers.patterns().map(by_any).collect_vec();
    let mut owns = groups.iter().enumerate().map(|(at, group)| Own {
        models: group.members.iter().map(|member| models[*member]).collect(),
        standard: tally.share(|pattern| pattern.standard.has_any(group.set.columns())),
        on_offer: figure(2 + 2 * at, tally.share(|pattern| group.serves(pattern))),
        only: figure(3 + 2 * at, tally.share(|pattern| group.serves_alone(pattern))),
        best: group.best(&best),
        best_at: group.best_at(&best, &counted.kept),
    });
    let of_models = owns.by_ref().take(models.len()).collect();
    let families = families.iter().zip(owns).map(|((maker, family), own)| (*maker, *family, own)).collect();
    Served {
        heads: tally.heads(),
        kept: counted.kept.len(),
        standard: figure(0, tally.share(by_standard)),
        on_offer: figure(1, tally.share(by_any)),
        by_kind: by_kind(tally, &models),
        by_price: by_price(tally, &models),
        models: of_models,
        families,
        overlap: overlap(tally, models.len()),
        gaps: gaps(shelf, &counted.kept, &is_served, &catalogue.shop.buying),
        map: counted.map.clone(),
    }
}

fn by_standard(pattern: Pattern<'_>) -> bool {
    !pattern.standard.is_empty()
}

fn by_any(pattern: Pattern<'_>) -> bool {
    !pattern.on_offer.is_empty()
}

/// Everything that has a spread: the whole shelf with standard pads and with those on offer, then whom each group serves
/// and whom it serves alone. One walk over the patterns, because every world asks for all of it.
fn figures(tally: &Tally, groups: &[Group]) -> Vec<f64> {
    let columns = groups.iter().flat_map(|group| &group.members).max().map_or(0, |last| last + 1);
    let mut of_column = vec![Vec::new(); columns];
    for (at, group) in groups.iter().enumerate() {
        group.members.iter().for_each(|member| of_column[*member].push(at));
    }
    let mut counts = vec![0; 2 + 2 * groups.len()];
    let mut hits = vec![0; groups.len()];
    for (pattern, heads) in tally.patterns() {
        counts[0] += if by_standard(pattern) { heads } else { 0 };
        counts[1] += if by_any(pattern) { heads } else { 0 };
        let found = || pattern.on_offer.iter().filter_map(|column| of_column.get(column)).flatten();
        found().for_each(|group| hits[*group] += 1);
        let all = pattern.on_offer.count();
        for group in found() {
            // The first time that it is met: a group of several columns is met several times.
            let hit = std::mem::take(&mut hits[*group]);
            counts[2 + 2 * group] += if hit > 0 { heads } else { 0 };
            counts[3 + 2 * group] += if hit == all { heads } else { 0 };
        }
    }
    counts.into_iter().map(|count| share(count, tally.heads()).value).collect()
}

/// Columns that are looked at together.
struct Group {
    members: Vec<usize>,
    set: ColumnSet,
}

impl Group {
    fn new(members: Vec<usize>) -> Self {
        Self { set: members.iter().copied().collect(), members }
    }

    fn serves(&self, pattern: Pattern<'_>) -> bool {
        pattern.on_offer.has_any(self.set.columns())
    }

    fn serves_alone(&self, pattern: Pattern<'_>) -> bool {
        self.serves(pattern) && pattern.on_offer.iter().all(|column| self.members.contains(&column))
    }

    fn is_best(&self, best: Option<usize>) -> bool {
        best.is_some_and(|column| self.members.contains(&column))
    }

    fn best(&self, best: &[Option<usize>]) -> Quote {
        share(best.iter().filter(|best| self.is_best(**best)).count() as u64, best.len() as u64)
    }

    fn best_at(&self, best: &[Option<usize>], heads: &Particles) -> Option<[[f64; 2]; 2]> {
        let places = best.iter().positions(|best| self.is_best(*best)).collect_vec();
        let quartiles = |value: &dyn Fn(usize) -> f64| {
            let sorted = places.iter().map(|place| value(*place)).sorted_by(f64::total_cmp).collect_vec();
            [sorted[sorted.len() / 4], sorted[sorted.len() * 3 / 4]]
        };
        let index = |head: usize| shape_index(heads.length[head], heads.breadth[head]);
        (places.len() >= FEW).then(|| [quartiles(&|head| heads.circumference[head]), quartiles(&index)])
    }
}

fn by_kind(tally: &Tally, models: &[&Model]) -> Vec<Alone<Kind>> {
    let kinds = models.iter().map(|model| model.kind).sorted().dedup();
    kinds.map(|kind| part(tally, models, kind, |model| model.kind == kind)).collect()
}

fn by_price(tally: &Tally, models: &[&Model]) -> Vec<Alone<Money>> {
    let limits = limits(models.iter().map(|model| model.price));
    limits.into_iter().map(|limit| part(tally, models, limit, |model| model.price <= limit)).collect()
}

fn part<T>(tally: &Tally, models: &[&Model], which: T, is_in: impl Fn(&Model) -> bool) -> Alone<T> {
    let members = models.iter().positions(|model| is_in(model)).collect_vec();
    let set: ColumnSet = members.iter().copied().collect();
    Alone {
        which,
        models: members.len(),
        standard: tally.share(|pattern| pattern.standard.has_any(set.columns())),
        on_offer: tally.share(|pattern| pattern.on_offer.has_any(set.columns())),
    }
}

fn overlap(tally: &Tally, models: usize) -> Vec<Vec<f64>> {
    let mut both = vec![vec![0_u64; models]; models];
    for (pattern, heads) in tally.patterns() {
        for one in pattern.on_offer.iter() {
            for other in pattern.on_offer.iter() {
                both[one][other] += heads;
            }
        }
    }
    let rows = both.iter().enumerate();
    rows.map(|(one, row)| row.iter().map(|heads| share(*heads, row[one]).value).collect()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Origin, load};
    use crate::diag::Sources;
    use crate::head::Posterior;
    use crate::range::{Column, tally};

    #[test]
    fn one_walk_says_what_every_share_says() {
        let catalogue = load(&Origin::BuiltIn, &mut Sources::default()).unwrap();
        let columns = catalogue.models().iter().map(|model| Column::of(model, &catalogue)).collect();
        let shelf = Shelf::new(columns, catalogue.shop.fit);
        let heads = Particles::draw(&Posterior::new(&catalogue.populations()[0], &[], None), 4096, 3, 0);
        let tally = tally(&shelf, &taken(&heads, shelf.rules.outline), None);
        let groups = [vec![0], vec![2, 3, 4], vec![5, 7], vec![7], vec![4]].map(Group::new);
        let walked = figures(&tally, &groups);
        let of_all = [tally.share(by_standard), tally.share(by_any)];
        let of_groups = groups.iter().flat_map(|group| {
            [tally.share(|pattern| group.serves(pattern)), tally.share(|pattern| group.serves_alone(pattern))]
        });
        let shares = of_all.into_iter().chain(of_groups).map(|quote| quote.value).collect_vec();
        assert_eq!(walked.len(), shares.len());
        assert!(walked.iter().zip(&shares).all(|(a, b)| (a - b).abs() < 1e-15), "{walked:?} {shares:?}");
        assert!(walked[5] > 0.0, "a group that serves somebody alone");
    }
}
