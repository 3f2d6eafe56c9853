//! Bounds as schemas write them.

use crate::profile::bounds::Bounds;
use schemars::Schema;
use serde_json::Value;

/// Holds a number to bounds.
pub(in crate::profile) fn within(bounds: Bounds) -> impl FnMut(&mut Schema) {
    move |schema| {
        schema.insert("minimum".to_owned(), number(*bounds.start()));
        schema.insert("maximum".to_owned(), number(*bounds.end()));
    }
}

/// Holds a number to bounds of which the lower one is too small itself.
pub(in crate::profile) fn more_than_least(bounds: Bounds) -> impl FnMut(&mut Schema) {
    move |schema| {
        schema.insert("exclusiveMinimum".to_owned(), number(*bounds.start()));
        schema.insert("maximum".to_owned(), number(*bounds.end()));
    }
}

/// Holds every number of a list to bounds.
pub(in crate::profile) fn each_within(bounds: Bounds) -> impl FnMut(&mut Schema) {
    move |schema| {
        if let Some(Ok(items)) = schema.get_mut("items").map(<&mut Schema>::try_from) {
            within(bounds.clone())(items);
        }
    }
}

/// Whole numbers without a point, as people write them.
pub(super) fn number(value: f64) -> Value {
    #[expect(clippy::cast_possible_truncation, reason = "bounds are small numbers")]
    let whole = value as i64;
    #[expect(clippy::cast_precision_loss, reason = "bounds are small numbers")]
    let is_whole = (value - whole as f64).abs() < f64::EPSILON;
    if is_whole { Value::from(whole) } else { Value::from(value) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_bounds_have_no_point() {
        assert_eq!([number(60.0), number(0.05)].map(|value| value.to_string()), ["60", "0.05"]);
    }
}
