//! A sheet for a maker, to be sent as it is.

use super::figures::{plainly, share, spread};
use crate::catalogue::Catalogue;
use crate::head::Population;
use crate::profile::{Model, Origin, Zone};
use crate::range::{Complaint, Complaints, MakerSheet, Missing, PackUse, Pair, SheetLine};
use crate::render::text::audit::thousands;
use crate::render::text::page::{Page, mm, percent};
use crate::supply::Kind;
use crate::unit::{Money, plain};
use itertools::Itertools;

/// Packs that a page lists; the document has them all.
const PACKS: usize = 6;

/// Complaints that a page lists.
const COMPLAINTS: usize = 12;

/// Pad sets that a page names beside a complaint.
const SETS: usize = 2;

/// The sheet as a page; with complaints where a journal was given, and how many of its lines could not be read.
#[must_use]
pub fn range_maker(
    catalogue: &Catalogue,
    population: &Population,
    sheet: &MakerSheet<'_>,
    complaints: Option<(&Complaints<'_>, usize)>,
) -> String {
    let mut page = Page::default();
    let words = Words { catalogue, sheet };
    words.beginning(&mut page, population);
    words.lines(&mut page);
    words.packs(&mut page);
    words.pairs(&mut page);
    if let Some((complaints, unread)) = complaints {
        words.complaints(&mut page, complaints, unread);
    }
    words.how(&mut page);
    page.finish()
}

struct Words<'w, 'a> {
    catalogue: &'w Catalogue,
    sheet: &'w MakerSheet<'a>,
}

impl Words<'_, '_> {
    fn beginning(&self, page: &mut Page, population: &Population) {
        let maker = self.sheet.models.first().map_or("", |model| model.maker.as_str());
        page.heading(&format!("FOR {}", maker.to_uppercase()));
        page.wrapped("  ", &format!("From: {}", self.catalogue.shop.name));
        let models = self.sheet.models.iter().map(|model| model.name.as_str()).join(", ");
        let words = format!(
            "What customers would need of your helmets and can't have yet, each with what it would win. The helmets: \
             {models}. The customers: {}.",
            population.name
        );
        page.wrapped("  ", &words);
        let words = format!(
            "Today {} of all customers fit one of these helmets, with the pads on offer.",
            share(self.sheet.served)
        );
        page.wrapped("  ", &words);
    }

    fn lines(&self, page: &mut Page) {
        page.heading("WHAT WOULD WIN CUSTOMERS, as a share of all customers");
        let least = plainly(self.catalogue.shop.buying.least_gap);
        if self.sheet.lines.is_empty() {
            page.wrapped("  ", &format!("Nothing that we thought of would win {least} of them by itself."));
            return;
        }
        page.line("          for you       for us");
        for (at, line) in self.sheet.lines.iter().enumerate() {
            let gain = line.gain;
            let first = format!("{:>3}. {:>12} {:>12}  ", at + 1, share(gain.for_maker), share(gain.for_shop));
            page.wrapped(&first, &self.line(line));
        }
        let gain = self.sheet.together;
        let first = format!("     {:>12} {:>12}  ", share(gain.for_maker), share(gain.for_shop));
        page.wrapped(&first, "all of these together");
        if self.sheet.minor > 0 {
            let words = format!("{} smaller changes would win less than {least} each.", self.sheet.minor);
            page.wrapped("  ", &words);
        }
        page.wrapped(
            "  ",
            "for you: customers whom none of your helmets fits today, and one would with this alone. for us: those of them \
             whom nothing here fits today. ±: sampling error. In brackets: where the first figure lies in nine of ten \
             cases, if what we know of the helmets is off as far as we think.",
        );
    }

    fn line(&self, line: &SheetLine<'_>) -> String {
        let known = line.spread.map_or_else(String::new, |known| format!(" ({})", spread(known)));
        format!("{}: {}{known}", line.model.name, missing(line.model, &line.missing))
    }

    fn packs(&self, page: &mut Page) {
        let saving = |pack: &&PackUse<'_>| pack.saved_by_splitting() > 0.0;
        let packs = self.sheet.packs.iter().filter(saving).collect_vec();
        if packs.is_empty() {
            return;
        }
        page.heading("PACKS, by 100 customers whom the model fits");
        packs.iter().take(PACKS).for_each(|pack| page.wrapped("  - ", &self.pack(pack)));
        if packs.len() > PACKS {
            page.wrapped("  ", &format!("{} other packs, each in the JSON document.", packs.len() - PACKS));
        }
        page.wrapped(
            "  ",
            "Each customer gets the pads that take the fewest minutes, the cheapest way. singly: at an even share of the \
             pack's price.",
        );
    }

    fn pack(&self, pack: &PackUse<'_>) -> String {
        let currency = &self.catalogue.shop.currency;
        let pads = pack.pads.iter().map(|(kind, count)| format!("{} mm {}", pad(*kind), times(pack.for_each(*count))));
        let used = pack.used_of_one();
        #[expect(clippy::cast_precision_loss, reason = "a price")]
        let for_one = pack.pack.price.minor() as f64 / used.max(f64::MIN_POSITIVE);
        format!(
            "{}, pack {} ({} {currency}): bought {}; used of it {}. So a pad that is used costs {} {currency}; if its {} pads \
             were sold singly, these customers would save {} {currency}.",
            self.place(pack.model, pack.shell.id.as_str()),
            pack.pack.id,
            pack.pack.price,
            times(pack.for_each(pack.bought)),
            pads.format(", "),
            money(for_one),
            pack.pads.len(),
            money(100.0 * pack.saved_by_splitting())
        )
    }

    fn pairs(&self, page: &mut Page) {
        if self.sheet.pairs.is_empty() {
            return;
        }
        page.heading("SINGLE PADS THAT ARE NEEDED TOGETHER, by 100 customers whom the model fits");
        self.sheet.pairs.iter().for_each(|pair| page.wrapped("  - ", &self.pair(pair)));
        page.wrapped("  ", "A pack of the two would be one purchase instead of two for them, beside the single pads.");
    }

    fn pair(&self, pair: &Pair<'_>) -> String {
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

    fn complaints(&self, page: &mut Page, complaints: &Complaints<'_>, unread: usize) {
        page.heading(&format!("WHAT CUSTOMERS SAID, in {} tries of your helmets", thousands(complaints.tries)));
        for complaint in complaints.told.iter().take(COMPLAINTS) {
            page.wrapped("  - ", &said(complaint));
        }
        if complaints.told.len() > COMPLAINTS {
            let rest = complaints.told.len() - COMPLAINTS;
            page.wrapped("  ", &format!("{rest} rarer ones, each in the JSON document."));
        }
        if complaints.told.is_empty() {
            page.wrapped("  ", "Nothing that was said often enough.");
        }
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
        page.wrapped("  ", &notes.join(" "));
    }

    fn how(&self, page: &mut Page) {
        page.heading("HOW WE KNOW");
        let seen = |origin: Origin| self.sheet.models.iter().filter(|model| model.interior.origin == origin).count();
        let origins =
            [(Origin::ByEye, "by eye"), (Origin::Measured, "measured"), (Origin::Learned, "learned from tries")];
        let origins = origins.into_iter().filter(|(origin, _)| seen(*origin) > 0);
        let origins = origins.map(|(origin, word)| format!("{} {word}", seen(origin))).join(", ");
        let ways = plain(self.catalogue.shop.buying.pads_each_way.round());
        let step = mm(self.catalogue.shop.buying.pad_step);
        let words = format!(
            "Computed: sampled heads in your helmets as we know them from labels, pads and the shape of the interior \
             ({origins}). A head fits where the foam on each axis is neither too tight nor too light with some pads on \
             offer. For each zone with pads we tried every half millimetre from {ways} steps of {step} mm below the thinnest \
             to as many above the thickest. What is proposed, and in which order, was chosen on one half of the heads; each \
             figure is from the other half, {} heads. Pads for a zone that has none reach as far around its standard pads. A \
             new size has the pads of the one next to it. Crown, ears, weight and noise are not computed.",
            thousands(usize::try_from(self.sheet.judges).unwrap_or(usize::MAX))
        );
        page.wrapped("  ", &words);
        page.wrapped("  ", "Where your own drawings say otherwise, please tell us: we correct our figures gladly.");
    }

    fn place(&self, model: &Model, shell: &str) -> String {
        if model.shells.len() == 1 { model.name.clone() } else { format!("{}, shell {shell}", model.name) }
    }
}

/// What could be offered, in words.
fn missing(model: &Model, missing: &Missing) -> String {
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

fn said(complaint: &Complaint<'_>) -> String {
    #[expect(clippy::cast_precision_loss, reason = "counts of tries")]
    let heard = complaint.heard as f64 / complaint.tries as f64;
    let sets = complaint.with.iter().take(SETS).map(|(pads, count)| format!("{count} with {}", set(pads))).join(", ");
    let others: usize = complaint.with.iter().skip(SETS).map(|(_, count)| count).sum();
    let others = if others > 0 { format!(", {others} with other pads") } else { String::new() };
    format!(
        "{} in {}: {} - {} of {} tries, {} ({} to {}): {sets}{others}",
        complaint.model.name,
        complaint.size.label,
        complaint.reason.words(),
        complaint.heard,
        complaint.tries,
        percent(heard),
        percent(complaint.interval.0),
        percent(complaint.interval.1)
    )
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
fn hundred(share: f64) -> String {
    let count = share * 100.0;
    if count > 0.0 && count < 0.05 { "<0.1".to_owned() } else { format!("{:.1}", count + 0.0) }
}

/// Minor units as money.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "prices are small and never below 0")]
fn money(minor: f64) -> Money {
    Money::of_minor(minor.round() as u64)
}
