//! A sheet for a maker.

use super::figures::{plainly, share, spread};
use crate::catalogue::Catalogue;
use crate::head::Population;
use crate::profile::{Model, Origin, Zone};
use crate::range::{Complaint, Complaints, MakerSheet, Missing, PackUse, Pair, SheetLine};
use crate::render::text::{mm, percent, thousands};
use crate::supply::Kind;
use crate::unit::{Money, plain};
use itertools::Itertools;

/// Packs that a page lists; the document has them all.
pub(in crate::render) const PACKS: usize = 6;

/// Complaints that a page lists.
pub(in crate::render) const COMPLAINTS: usize = 12;

/// Pad sets that a page names beside a complaint.
const SETS: usize = 2;

/// The sheet with what its words take.
pub(in crate::render) struct SheetWords<'w, 'a> {
    pub(in crate::render) catalogue: &'w Catalogue,
    pub(in crate::render) sheet: &'w MakerSheet<'a>,
}

/// What becomes of a pack.
pub(in crate::render) struct PackFacts {
    /// Model, shell, pack and its price.
    pub(in crate::render) name: String,
    /// How often a customer whom the model fits takes it, on average.
    pub(in crate::render) bought: f64,
    /// How often each of its pads goes into a helmet, of 100 such customers.
    pub(in crate::render) used: String,
    /// What a pad of it costs that is used.
    pub(in crate::render) for_one: Money,
    /// What 100 such customers would save if its pads were sold singly.
    pub(in crate::render) saved: Money,
}

/// What the two shares of a line are.
pub(in crate::render) const SHARES: &str = "for you: customers whom none of your helmets fits today, and one would with this alone. for us: those of them \
                                            whom nothing here fits today. ±: sampling error. In brackets: where the first figure lies in nine of ten \
                                            cases, if what we know of the helmets is off as far as we think.";

/// How the use of packs was counted.
pub(in crate::render) const OF_PACKS: &str = "Each customer gets the pads that take the fewest minutes, the cheapest way. singly: at an even share of the \
                                              pack's price.";

/// What a pack of two pads would do.
pub(in crate::render) const OF_PAIRS: &str =
    "A pack of the two would be one purchase instead of two for them, beside the single pads.";

/// An offer to talk.
pub(in crate::render) const CORRECT: &str =
    "Where your own drawings say otherwise, please tell us: we correct our figures gladly.";

impl<'a> SheetWords<'_, 'a> {
    /// Whose sheet it is.
    pub(in crate::render) fn maker(&self) -> &str {
        self.sheet.models.first().map_or("", |model| model.maker.as_str())
    }

    /// What the sheet is about.
    pub(in crate::render) fn about(&self, population: &Population) -> String {
        let models = self.sheet.models.iter().map(|model| model.name.as_str()).join(", ");
        format!(
            "What customers would need of your helmets and can't have yet, each with what it would win. The helmets: \
             {models}. The customers: {}.",
            population.name
        )
    }

    /// Whom the helmets fit today.
    pub(in crate::render) fn today(&self) -> String {
        format!("Today {} of all customers fit one of these helmets, with the pads on offer.", share(self.sheet.served))
    }

    /// Said where nothing would win anybody.
    pub(in crate::render) fn nothing(&self) -> String {
        format!("Nothing that we thought of would win {} of them by itself.", self.least())
    }

    /// How many changes are too small to be told.
    pub(in crate::render) fn minor(&self) -> Option<String> {
        let minor = self.sheet.minor;
        (minor > 0).then(|| format!("{minor} smaller changes would win less than {} each.", self.least()))
    }

    fn least(&self) -> String {
        plainly(self.catalogue.shop.buying.least_gap)
    }

    /// What could be offered.
    pub(in crate::render) fn line(&self, line: &SheetLine<'_>) -> String {
        let known = line.spread.map_or_else(String::new, |known| format!(" ({})", spread(known)));
        format!("{}: {}{known}", line.model.name, missing(line.model, &line.missing))
    }

    /// The packs whose split would save customers something.
    pub(in crate::render) fn packs(&self) -> Vec<&PackUse<'a>> {
        self.sheet.packs.iter().filter(|pack| pack.saved_by_splitting() > 0.0).collect()
    }

    /// How many packs a page leaves out.
    pub(in crate::render) fn other_packs(&self) -> Option<String> {
        let others = self.packs().len().saturating_sub(PACKS);
        (others > 0).then(|| format!("{others} other packs, each in the JSON document."))
    }

    /// What becomes of a pack.
    pub(in crate::render) fn pack(&self, pack: &PackUse<'_>) -> String {
        let currency = &self.catalogue.shop.currency;
        let PackFacts { name, bought, used, for_one, saved } = self.facts(pack);
        format!(
            "{name}: bought {}; used of it {used}. So a pad that is used costs {for_one} {currency}; if its {} pads \
             were sold singly, these customers would save {saved} {currency}.",
            times(bought),
            pack.pads.len(),
        )
    }

    /// The same in pieces.
    pub(in crate::render) fn facts(&self, pack: &PackUse<'_>) -> PackFacts {
        let pads = pack.pads.iter().map(|(kind, count)| format!("{} mm {}", pad(*kind), times(pack.for_each(*count))));
        #[expect(clippy::cast_precision_loss, reason = "a price")]
        let for_one = pack.pack.price.minor() as f64 / pack.used_of_one().max(f64::MIN_POSITIVE);
        PackFacts {
            name: format!(
                "{}, pack {} ({} {})",
                self.place(pack.model, pack.shell.id.as_str()),
                pack.pack.id,
                pack.pack.price,
                self.catalogue.shop.currency
            ),
            bought: pack.for_each(pack.bought),
            used: pads.collect_vec().join(", "),
            for_one: money(for_one),
            saved: money(100.0 * pack.saved_by_splitting()),
        }
    }

    /// Two pads that are needed together.
    pub(in crate::render) fn pair(&self, pair: &Pair<'_>) -> String {
        #[expect(clippy::cast_precision_loss, reason = "counts of heads")]
        let [both, either, customers] = [pair.both, pair.either, pair.customers.max(1)].map(|count| count as f64);
        let [first, second] = pair.pads.map(pad);
        format!(
            "{}: {first} mm with {second} mm, for {} customers ({} of those who need one of them)",
            self.place(pair.model, pair.shell.id.as_str()),
            hundred(both / customers),
            percent(both / either.max(1.0))
        )
    }

    /// How the figures were made.
    pub(in crate::render) fn how(&self) -> String {
        let seen = |origin: Origin| self.sheet.models.iter().filter(|model| model.interior.origin == origin).count();
        let origins =
            [(Origin::ByEye, "by eye"), (Origin::Measured, "measured"), (Origin::Learned, "learned from tries")];
        let origins = origins.into_iter().filter(|(origin, _)| seen(*origin) > 0);
        let origins = origins.map(|(origin, word)| format!("{} {word}", seen(origin))).join(", ");
        let ways = plain(self.catalogue.shop.buying.pads_each_way.round());
        let step = mm(self.catalogue.shop.buying.pad_step);
        format!(
            "Computed: sampled heads in your helmets as we know them from labels, pads and the shape of the interior \
             ({origins}). A head fits where the foam on each axis is neither too tight nor too light with some pads on \
             offer. For each zone with pads we tried every half millimetre from {ways} steps of {step} mm below the thinnest \
             to as many above the thickest. What is proposed, and in which order, was chosen on one half of the heads; each \
             figure is from the other half, {} heads. Pads for a zone that has none reach as far around its standard pads. A \
             new size has the pads of the one next to it. Crown, ears, weight and noise are not computed.",
            thousands(usize::try_from(self.sheet.judges).unwrap_or(usize::MAX))
        )
    }

    fn place(&self, model: &Model, shell: &str) -> String {
        if model.shells.len() == 1 { model.name.clone() } else { format!("{}, shell {shell}", model.name) }
    }
}

/// What could be offered, in words.
pub(in crate::render) fn missing(model: &Model, missing: &Missing) -> String {
    match missing {
        Missing::Pad { shell, zone, thickness } => {
            let sizes = model.shells.iter().filter(|known| known.id == *shell).flat_map(|shell| &shell.sizes);
            format!(
                "one more pad for the {}, {} mm, in {}",
                zone.name(),
                mm(*thickness),
                sizes.map(|size| size.label.as_str()).join("/")
            )
        }
        Missing::Zone { zone, pads } => {
            let ends = pads.iter().flat_map(|(_, pads)| pads.iter().copied()).minmax_by(f64::total_cmp).into_option();
            let (least, most) = ends.unwrap_or_default();
            let some =
                if pads.len() == model.shells.len() { String::new() } else { format!(" in {}", shells(model, pads)) };
            format!("other pads for the {}{some}, {} to {} mm; there are none", zone.name(), mm(least), mm(most))
        }
        Missing::Size { rung, .. } => {
            let [from, to] = [rung.circumference.0, rung.circumference.1].map(|mm| plain(mm / 10.0));
            format!("a size {} ({from}-{to} cm)", rung.label)
        }
    }
}

/// The sizes of shells.
fn shells(model: &Model, pads: &[(crate::unit::Id, Vec<f64>)]) -> String {
    let is_one = |id: &crate::unit::Id| pads.iter().any(|(shell, _)| shell == id);
    let sizes = model.shells.iter().filter(|shell| is_one(&shell.id)).flat_map(|shell| &shell.sizes);
    sizes.map(|size| size.label.as_str()).join("/")
}

/// What is told of customers' complaints after the list.
pub(in crate::render) fn notes(complaints: &Complaints<'_>, unread: usize) -> String {
    let mut notes = vec!["In brackets: interval of 95 % for the share.".to_owned()];
    if complaints.seldom > 0 {
        notes.push(format!(
            "{} sizes were tried fewer than {} times: only what endangers a rider is told of them.",
            complaints.seldom, complaints.least
        ));
    }
    if unread > 0 {
        let lines = if unread == 1 { "1 line".to_owned() } else { format!("{unread} lines") };
        notes.push(format!("{lines} of our journals could not be read."));
    }
    notes.join(" ")
}

/// How many complaints a page leaves out, or that there are none.
pub(in crate::render) fn rarer(complaints: &Complaints<'_>) -> Option<String> {
    match complaints.told.len() {
        0 => Some("Nothing that was said often enough.".to_owned()),
        told if told > COMPLAINTS => Some(format!("{} rarer ones, each in the JSON document.", told - COMPLAINTS)),
        _ => None,
    }
}

/// A complaint with how often it was heard, and with which pads.
pub(in crate::render) fn said(complaint: &Complaint<'_>) -> String {
    let (model, size) = (&complaint.model.name, &complaint.size.label);
    let [heard, often] = [heard(complaint), often(complaint)];
    format!("{model} in {size}: {} - {heard}, {often}: {}", complaint.reason.words(), with(complaint))
}

/// How often a complaint was heard: `19 of 87 tries`.
pub(in crate::render) fn heard(complaint: &Complaint<'_>) -> String {
    format!("{} of {} tries", complaint.heard, complaint.tries)
}

/// The share with its interval: `22 % (14 % to 32 %)`.
pub(in crate::render) fn often(complaint: &Complaint<'_>) -> String {
    #[expect(clippy::cast_precision_loss, reason = "counts of tries")]
    let share = complaint.heard as f64 / complaint.tries as f64;
    let [share, from, to] = [share, complaint.interval.0, complaint.interval.1].map(percent);
    format!("{share} ({from} to {to})")
}

/// With which pads a complaint was heard, the most frequent ones by name.
pub(in crate::render) fn with(complaint: &Complaint<'_>) -> String {
    let sets = complaint.with.iter().take(SETS).map(|(pads, count)| format!("{count} with {}", set(pads))).join(", ");
    let others: usize = complaint.with.iter().skip(SETS).map(|(_, count)| count).sum();
    let others = if others > 0 { format!(", {others} with other pads") } else { String::new() };
    format!("{sets}{others}")
}

fn set(pads: &[Kind]) -> String {
    if pads.is_empty() { "standard pads".to_owned() } else { pads.iter().map(|kind| pad(*kind)).join("/") + " mm" }
}

fn pad((zone, thickness): (Zone, f64)) -> String {
    format!("{} {}", zone.name(), mm(thickness))
}

/// So many times for 100.
fn times(share: f64) -> String {
    format!("{} times", hundred(share))
}

/// So many of 100.
pub(in crate::render) fn hundred(share: f64) -> String {
    let count = share * 100.0;
    if count > 0.0 && count < 0.05 { "<0.1".to_owned() } else { format!("{:.1}", count + 0.0) }
}

/// Minor units as money.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "prices are small and never below 0")]
fn money(minor: f64) -> Money {
    Money::of_minor(minor.round() as u64)
}
