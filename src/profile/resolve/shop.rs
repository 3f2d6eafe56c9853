//! The shop's assumptions.

use super::away_rules::away_rules;
use super::buying_rules::{buying_rules, stocking_rules};
use super::learning_rules::learning_rules;
use super::pad_rules::pad_rules;
use super::practice_rules::practice_rules;
use super::sketch_rules::sketch_rules;
use super::{Checker, Read, currency, resolve};
use crate::diag::SourceId;
use crate::head::{Outline, ShapeByEye};
use crate::profile::bounds::{
    BY_EYE_SD, CENTRE_SD_MM, CHECK_INDEX, CHECK_LABEL_MM, CHECK_MM, GO_WITHOUT_MINUTES, IDEAL_COMPRESSION, INDEX_SD,
    MASS_G, MISREPORT, OUTLINE_FACTOR, PAD_MM, RARE_ABOVE, READING_SD_MM, READING_STEP_MM, SHARE, SHOP_MINUTES, STRAIN,
    SWAP_MINUTES, TRIES, WORD_INDEX,
};
use crate::profile::raw::{
    Number, RawBands, RawChecking, RawFit, RawMeasurer, RawPlausible, RawProfileError, RawShapeByEye, RawTool, ShopFile,
};
use crate::profile::yaml;
use crate::profile::{
    Auditing, Bands, Checking, FitRules, Measurer, Minutes, Placed, Plausible, ProfileError, ProfileErrors, Session,
    ShapeWords, Shop, Tool,
};
use std::ops::RangeInclusive;

/// Two measurers with four tools are eight lines.
const MOST_LINES: usize = 40;

/// Reads the shop's assumptions.
pub fn shop(source: SourceId, text: &str) -> Read<Placed<Shop>> {
    let document = yaml::read::<ShopFile>(source, text);
    resolve(source, document, |file| file.schema, |check, file| Some(make(check, file)))
}

fn make(c: &mut Checker<'_>, mut file: ShopFile) -> Placed<Shop> {
    c.bounded("measuring", &mut file.measuring, MOST_LINES, "lines");
    let currency = currency(c, &file.currency);
    let m = file.minutes;
    let minutes = Minutes {
        fetch: c.number("minutes.fetch", m.fetch, SHOP_MINUTES, "fetching in minutes"),
        check: c.number("minutes.check", m.check, SHOP_MINUTES, "checking in minutes"),
        recheck: c.number("minutes.recheck", m.recheck, SHOP_MINUTES, "checking again in minutes"),
        go_without: c.number("minutes.go_without", m.go_without, GO_WITHOUT_MINUTES, "the cost of going without"),
    };
    let s = file.session;
    let session = Session {
        tries: tries(c, s.tries),
        shop_rule_margin: c.number("session.shop_rule_margin", s.shop_rule_margin, SHARE, "the margin"),
        fold_below: c.number("session.fold_below", s.fold_below, SHARE, "the probability"),
        fold_share: c.number("session.fold_share", s.fold_share, SHARE, "the share"),
        poor_fit_below: c.number("session.poor_fit_below", s.poor_fit_below, SHARE, "the probability"),
    };
    let long_below = c.number("shape_words.long_below", file.shape_words.long_below, WORD_INDEX, "the index");
    let round_above = c.number("shape_words.round_above", file.shape_words.round_above, WORD_INDEX, "the index");
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
        pads: pad_rules(c, &file.pads),
        away: away_rules(c, &file.away),
        misreport: c.number("misreport", file.misreport, MISREPORT, "the misreport rate"),
        inconsistent_above: c.number(
            "inconsistent_head_above",
            file.inconsistent_head_above,
            RARE_ABOVE,
            "the quantile",
        ),
        plausible: plausible(c, &file.plausible),
        checking: checking(c, &file.checking),
        auditing: Auditing {
            reading_step: c.number(
                "auditing.reading_step_mm",
                file.auditing.reading_step_mm,
                READING_STEP_MM,
                "the step in mm",
            ),
            rare_reason: c.number("auditing.rare_reason", file.auditing.rare_reason, SHARE, "the share"),
        },
        learning: learning_rules(c, &file.learning),
        buying: buying_rules(c, &file.buying),
        stocking: stocking_rules(c, &file.stocking),
        practice: practice_rules(c, &file.practice),
    };
    c.placed(shop, "")
}

fn tries(check: &mut Checker<'_>, tries: u32) -> usize {
    let (least, most) = TRIES.into_inner();
    if !TRIES.contains(&tries) {
        let message = format!("tries is {tries}, but must be between {least} and {most}");
        check.error("profile-bounds", "session.tries", message, "out of bounds", "four is usual");
    }
    usize::try_from(tries.clamp(least, most)).unwrap_or(1)
}

fn fit(check: &mut Checker<'_>, raw: &RawFit) -> FitRules {
    FitRules {
        outline: Outline {
            factor: check.number("fit.outline_factor", raw.outline_factor, OUTLINE_FACTOR, "the outline factor"),
            excess_share: check.number("fit.excess_share", raw.excess_share, SHARE, "the excess share"),
        },
        ideal: check.number("fit.ideal_compression", raw.ideal_compression, IDEAL_COMPRESSION, "the ideal compression"),
        head: bands(check, "fit.head_bands", &raw.head_bands),
        cheeks: bands(check, "fit.cheek_bands", &raw.cheek_bands),
    }
}

fn bands(check: &mut Checker<'_>, path: &str, raw: &RawBands) -> Bands {
    let keys = ["loose_below", "light_below", "tight_above", "hot_spot_above"];
    let raw = [raw.loose_below, raw.light_below, raw.tight_above, raw.hot_spot_above];
    let mut limits = [0.0; 4];
    for (limit, (key, number)) in limits.iter_mut().zip(keys.into_iter().zip(raw)) {
        *limit = check.number(&format!("{path}.{key}"), number, STRAIN, "the strain");
    }
    if !limits.is_sorted() || limits[1] >= limits[2] {
        let help = "write loose_below ≤ light_below < tight_above ≤ hot_spot_above";
        check.error("profile-order", path, "the bands are out of order", "not in this order", help);
    }
    let [loose_below, light_below, tight_above, hot_spot_above] = limits;
    Bands { loose_below, light_below, tight_above, hot_spot_above }
}

fn by_eye(check: &mut Checker<'_>, raw: &RawShapeByEye) -> [ShapeByEye; 3] {
    let sd = check.number("shape_by_eye.sd", raw.sd, BY_EYE_SD, "the sd of a shape by eye");
    let words = [("long", raw.long), ("intermediate", raw.intermediate), ("round", raw.round)];
    let words =
        words.map(|(word, index)| check.number(&format!("shape_by_eye.{word}"), index, WORD_INDEX, "the shape index"));
    if !words.is_sorted_by(|a, b| a < b) {
        let (message, help) = ("the shapes by eye are out of order", "write long < intermediate < round");
        check.error("profile-order", "shape_by_eye", message, "not in this order", help);
    }
    let [long, intermediate, round] = words;
    [(long, [intermediate, round]), (intermediate, [long, round]), (round, [long, intermediate])]
        .map(|(mean, others)| ShapeByEye { mean, sd, others })
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
        (by, with, check.number(&format!("measuring[{at}].sd_mm"), raw.sd_mm, READING_SD_MM, "the sd of a reading"))
    };
    let lines: Vec<_> = raw.iter().enumerate().map(line).collect();
    let name = |(by, with, _): &(Measurer, Tool, f64)| format!("{by:?} with {with:?}").to_lowercase();
    let names: Vec<_> = lines.iter().map(name).zip((0..).map(|at| format!("measuring[{at}]"))).collect();
    check.unique("the error of", &names);
    lines
}

fn profile_error(check: &mut Checker<'_>, path: &str, raw: &RawProfileError) -> ProfileError {
    ProfileError {
        shape_index: check.number(&format!("{path}.shape_index"), raw.shape_index, INDEX_SD, "the sd of the index"),
        centre: check.number(&format!("{path}.centre_mm"), raw.centre_mm, CENTRE_SD_MM, "the sd of the centre"),
    }
}

fn plausible(check: &mut Checker<'_>, raw: &RawPlausible) -> Plausible {
    Plausible {
        thickness: range(check, "thickness_mm", raw.thickness_mm, |c, path, n| c.number(path, n, PAD_MM, BOUND)),
        helmet_price: range(check, "helmet_price", raw.helmet_price, Checker::money),
        pad_price: range(check, "pad_price", raw.pad_price, Checker::money),
        mass: range(check, "mass_g", raw.mass_g, |c, path, n| c.number(path, n, MASS_G, BOUND)),
        swap_minutes: range(check, "swap_minutes", raw.swap_minutes, |c, path, n| {
            c.number(path, n, SWAP_MINUTES, BOUND)
        }),
        head_spread: range(check, "head_spread", raw.head_spread, |c, path, n| c.number(path, n, SHARE, BOUND)),
    }
}

const BOUND: &str = "the bound";

fn range<'t, T: PartialOrd>(
    check: &mut Checker<'t>,
    key: &str,
    raw: [Number; 2],
    read: impl Fn(&mut Checker<'t>, &str, Number) -> T,
) -> RangeInclusive<T> {
    let path = format!("plausible.{key}");
    let [least, most] = [0, 1].map(|at| read(check, &format!("{path}[{at}]"), raw[at]));
    if least > most {
        let help = "write the smaller number first";
        check.error("profile-order", &path, "this range runs backwards", "from the larger to the smaller", help);
    }
    least..=most
}

fn checking(check: &mut Checker<'_>, raw: &RawChecking) -> Checking {
    let mut number = |key: &str, number: Number, bounds: RangeInclusive<f64>, what: &str| {
        check.number(&format!("checking.{key}"), number, bounds, what)
    };
    Checking {
        label_step: number("label_step_mm", raw.label_step_mm, CHECK_MM, "the room between labels in mm"),
        shell_differs: number("shell_differs_mm", raw.shell_differs_mm, CHECK_MM, "the difference in mm"),
        label_differs: number("label_differs_mm", raw.label_differs_mm, CHECK_LABEL_MM, "the difference in mm"),
        index_differs: number("index_differs", raw.index_differs, CHECK_INDEX, "the difference of the indices"),
        outline_differs: number("outline_differs", raw.outline_differs, SHARE, "the share"),
        common_reason: number("common_reason", raw.common_reason, SHARE, "the share"),
        served_by_none: number("served_by_none", raw.served_by_none, SHARE, "the share"),
    }
}
