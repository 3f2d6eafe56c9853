//! A population whose numbers no survey of adults has: measures that don't go together, or that spread far too much or
//! too little. Most often centimetres got in, or standard deviations where variances belong.

use super::{Case, Rule};
use crate::diag::{Code, Diagnostic};
use crate::head::{Component, Measure};
use crate::profile::{Place, Shop};

pub(super) const RULE: Rule = Rule { code: CODE, find };
const CODE: Code = Code("population-doubtful");

fn find(case: &Case<'_>) -> Vec<Diagnostic> {
    let trusted = case.trusted;
    let mut found = Vec::new();
    for population in case.look.draft.populations.iter().filter(|population| case.look.is_sound(&population.place)) {
        for (at, component) in population.value.components().iter().enumerate() {
            let place = population.place.key("components").entry(at);
            found.extend(odd_outline(case, &trusted.shop, component, &place));
            found.extend(odd_spread(case, &trusted.shop, component, &place));
            found.extend(odd_relation(case, component, &place));
        }
    }
    found
}

/// Circumference, length and breadth describe one outline.
fn odd_outline(case: &Case<'_>, shop: &Shop, component: &Component, place: &Place) -> Option<Diagnostic> {
    let [circumference, length, breadth, _] = component.heads.mean;
    let outline = shop.fit.outline.circumference(length, breadth);
    if (circumference / outline - 1.0).abs() <= shop.checking.outline_differs {
        return None;
    }
    let message = format!(
        "heads of {length:.0} by {breadth:.0} mm are {outline:.0} mm around, but the mean circumference is \
         {circumference:.0} mm"
    );
    let place = place.key("mean_mm");
    let problem = Diagnostic::warning(CODE, message)
        .at(case.look.span(&place.key("circumference")), "doesn't go with the others")
        .see(case.look.span(&place.key("length")), "with this length")
        .help("compare with the survey: mm, and all measures of the same people");
    Some(problem)
}

fn odd_spread(case: &Case<'_>, shop: &Shop, component: &Component, place: &Place) -> Vec<Diagnostic> {
    let usual = &shop.plausible.head_spread;
    let mut found = Vec::new();
    for measure in Measure::ALL {
        let k = measure.index();
        let (mean, sd) = (component.heads.mean[k], component.heads.covariance[k][k].sqrt());
        if !usual.contains(&(sd / mean)) {
            let message = format!(
                "the {} has a standard deviation of {sd:.1} mm; usual is {:.0} to {:.0} mm",
                measure.name(),
                usual.start() * mean,
                usual.end() * mean
            );
            let place = place.key("covariance_mm2").key(key(measure)).entry(k);
            let problem = Diagnostic::warning(CODE, message)
                .at(case.look.span(&place), "its square")
                .help("the diagonal holds variances in mm²: the standard deviation times itself");
            found.push(problem);
        }
    }
    found
}

/// A larger head is larger in every measure, on average; breadth and face width are close kin.
fn odd_relation(case: &Case<'_>, component: &Component, place: &Place) -> Vec<Diagnostic> {
    let negative = |(a, b): &(Measure, Measure)| component.heads.covariance[a.index()][b.index()] < 0.0;
    let pairs = [
        (Measure::Circumference, Measure::Length),
        (Measure::Circumference, Measure::Breadth),
        (Measure::Circumference, Measure::FaceWidth),
        (Measure::Breadth, Measure::FaceWidth),
    ];
    let told = |(a, b): (Measure, Measure)| {
        let message = format!("a larger {} would go with a smaller {}", a.name(), b.name());
        let place = place.key("covariance_mm2").key(key(a)).entry(b.index());
        Diagnostic::warning(CODE, message)
            .at(case.look.span(&place), "less than 0")
            .help("compare the sign with the survey, here and in the mirrored place")
    };
    pairs.into_iter().filter(negative).map(told).collect()
}

fn key(measure: Measure) -> &'static str {
    match measure {
        Measure::Circumference => "circumference",
        Measure::Length => "length",
        Measure::Breadth => "breadth",
        Measure::FaceWidth => "face_width",
    }
}
