//! The shop's assumptions.

use super::Checker;
use super::sketch_rules::sketch_rules;
use crate::diag::{Diagnostic, SourceId};
use crate::head::{Outline, ShapeByEye};
use crate::profile::raw::{RawBands, RawFit, RawMeasurer, RawProfileError, RawShapeByEye, RawTool, ShopFile};
use crate::profile::yaml;
use crate::profile::{
    Bands, FitRules, Measurer, Minutes, Place, ProfileError, ProfileErrors, Session, ShapeWords, Shop, Tool,
};
use crate::unit::Currency;

/// The assumptions with the places where they name populations.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedShop {
    /// The assumptions.
    pub shop: Shop,
    /// Where the default population is named.
    pub population: Place,
    /// Where the population of nominal face widths is named.
    pub face_width_from: Place,
}

/// Reads the shop's assumptions.
pub fn shop(source: SourceId, text: &str) -> Result<PlacedShop, Vec<Diagnostic>> {
    let (file, places) = yaml::read::<ShopFile>(source, text)?;
    let mut check = Checker::new(source, places, file.schema);
    let c = &mut check;
    let currency = currency(c, &file.currency);
    let m = file.minutes;
    let minutes = Minutes {
        fetch: c.number("minutes.fetch", m.fetch, 0.0..=120.0, "fetching in minutes"),
        check: c.number("minutes.check", m.check, 0.0..=120.0, "checking in minutes"),
        recheck: c.number("minutes.recheck", m.recheck, 0.0..=120.0, "checking again in minutes"),
        go_without: c.number("minutes.go_without", m.go_without, 0.0..=10_000.0, "the cost of going without"),
    };
    let s = file.session;
    let session = Session {
        tries: tries(c, s.tries),
        shop_rule_margin: c.number("session.shop_rule_margin", s.shop_rule_margin, 0.0..=1.0, "the margin"),
        fold_below: c.number("session.fold_below", s.fold_below, 0.0..=1.0, "the probability"),
        fold_share: c.number("session.fold_share", s.fold_share, 0.0..=1.0, "the share"),
        poor_fit_below: c.number("session.poor_fit_below", s.poor_fit_below, 0.0..=1.0, "the probability"),
    };
    let long_below = c.number("shape_words.long_below", file.shape_words.long_below, 60.0..=100.0, "the index");
    let round_above = c.number("shape_words.round_above", file.shape_words.round_above, 60.0..=100.0, "the index");
    if long_below > round_above {
        let message = "long ovals must end before round ovals begin";
        c.error("profile-order", "shape_words", message, "in the wrong order", "write long_below: 76, round_above: 81");
    }
    let shop = Shop {
        name: c.text("shop", file.shop),
        currency,
        population: c.id("population", file.population),
        face_width_from: c.id("nominal_face_width_from", file.nominal_face_width_from),
        minutes,
        session,
        fit: fit(c, &file.fit),
        words: ShapeWords { long_below, round_above },
        by_eye: by_eye(c, &file.shape_by_eye),
        measuring: measuring(c, &file.measuring),
        profile_errors: ProfileErrors {
            by_eye: profile_error(c, "profile_error.by_eye", &file.profile_error.by_eye),
            measured: profile_error(c, "profile_error.measured", &file.profile_error.measured),
            learned: profile_error(c, "profile_error.learned", &file.profile_error.learned),
        },
        sketch: sketch_rules(c, &file.sketch),
        misreport: c.number("misreport", file.misreport, 0.0..=0.5, "the misreport rate"),
        inconsistent_above: c.number(
            "inconsistent_head_above",
            file.inconsistent_head_above,
            0.5..=1.0,
            "the quantile",
        ),
    };
    let placed =
        PlacedShop { population: c.place("population"), face_width_from: c.place("nominal_face_width_from"), shop };
    check.finish(placed)
}

fn currency(check: &mut Checker<'_>, text: &str) -> Currency {
    Currency::try_from(text.to_owned()).unwrap_or_else(|fault| {
        check.error("profile-currency", "currency", fault, "not a currency", "write for example EUR");
        #[expect(clippy::unwrap_used, reason = "the code of ISO 4217 for no currency")]
        Currency::try_from("XXX".to_owned()).unwrap()
    })
}

fn tries(check: &mut Checker<'_>, tries: u32) -> usize {
    if !(1..=8).contains(&tries) {
        let message = format!("tries is {tries}, but must be between 1 and 8");
        check.error("profile-bounds", "session.tries", message, "out of bounds", "four is usual");
    }
    usize::try_from(tries.clamp(1, 8)).unwrap_or(1)
}

fn fit(check: &mut Checker<'_>, raw: &RawFit) -> FitRules {
    FitRules {
        outline: Outline {
            factor: check.number("fit.outline_factor", raw.outline_factor, 0.9..=1.2, "the outline factor"),
            excess_share: check.number("fit.excess_share", raw.excess_share, 0.0..=1.0, "the excess share"),
        },
        ideal: check.number("fit.ideal_compression", raw.ideal_compression, 0.05..=0.9, "the ideal compression"),
        head: bands(check, "fit.head_bands", &raw.head_bands),
        cheeks: bands(check, "fit.cheek_bands", &raw.cheek_bands),
    }
}

fn bands(check: &mut Checker<'_>, path: &str, raw: &RawBands) -> Bands {
    let keys = ["loose_below", "light_below", "tight_above", "hot_spot_above"];
    let raw = [raw.loose_below, raw.light_below, raw.tight_above, raw.hot_spot_above];
    let mut limits = [0.0; 4];
    for (limit, (key, number)) in limits.iter_mut().zip(keys.into_iter().zip(raw)) {
        *limit = check.number(&format!("{path}.{key}"), number, 0.0..=1.0, "the strain");
    }
    if !limits.is_sorted() || limits[1] >= limits[2] {
        let help = "write loose_below ≤ light_below < tight_above ≤ hot_spot_above";
        check.error("profile-order", path, "the bands are out of order", "each must be more than the last", help);
    }
    let [loose_below, light_below, tight_above, hot_spot_above] = limits;
    Bands { loose_below, light_below, tight_above, hot_spot_above }
}

fn by_eye(check: &mut Checker<'_>, raw: &RawShapeByEye) -> [ShapeByEye; 3] {
    let sd = check.number("shape_by_eye.sd", raw.sd, 0.1..=20.0, "the sd of a shape by eye");
    let words = [("long", raw.long), ("intermediate", raw.intermediate), ("round", raw.round)];
    words.map(|(word, index)| ShapeByEye {
        mean: check.number(&format!("shape_by_eye.{word}"), index, 60.0..=100.0, "the shape index"),
        sd,
    })
}

fn measuring(check: &mut Checker<'_>, raw: &[crate::profile::raw::RawMeasuring]) -> Vec<(Measurer, Tool, f64)> {
    let line = |(at, raw): (usize, &crate::profile::raw::RawMeasuring)| {
        let by = match raw.by {
            RawMeasurer::Staff => Measurer::Staff,
            RawMeasurer::Customer => Measurer::Customer,
        };
        let with = match raw.with {
            RawTool::Tape => Tool::Tape,
            RawTool::Caliper => Tool::Caliper,
            RawTool::Ruler => Tool::Ruler,
            RawTool::Phone => Tool::Phone,
        };
        (by, with, check.number(&format!("measuring[{at}].sd_mm"), raw.sd_mm, 0.0..=50.0, "the sd of a reading"))
    };
    raw.iter().enumerate().map(line).collect()
}

fn profile_error(check: &mut Checker<'_>, path: &str, raw: &RawProfileError) -> ProfileError {
    ProfileError {
        shape_index: check.number(&format!("{path}.shape_index"), raw.shape_index, 0.0..=5.0, "the sd of the index"),
        centre: check.number(&format!("{path}.centre_mm"), raw.centre_mm, 0.0..=15.0, "the sd of the centre"),
    }
}
