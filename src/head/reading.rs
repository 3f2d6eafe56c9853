//! A measure as a person writes it: `57.5cm`, `575`, `22.6in`, `575±3`, `196 mm +- 2`.

use std::ops::Range;

/// A written measure, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WrittenMeasure {
    /// The value, mm.
    pub value: f64,
    /// The error that was written beside it, mm; 0 means exact.
    pub sd: Option<f64>,
}

/// Why a text is no measure, and which bytes of it are to blame.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrittenFault {
    /// What is wrong.
    pub kind: WrittenFaultKind,
    /// Where, on character boundaries of the text.
    pub place: Range<usize>,
}

/// What can be wrong with a written measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WrittenFaultKind {
    /// Nothing there, or no digits where a number belongs.
    NoNumber,
    /// A comma where a decimal point belongs.
    Comma,
    /// Something that is no number.
    BadNumber,
    /// A unit other than mm, cm or in.
    Unit,
}

/// Reads `value[unit][± error[unit]]`. Units are mm, cm and in (`"`); without one it is mm. A unit written only
/// once holds for both numbers. `±` may be written `+-` or `+/-`.
pub fn read_measure(text: &str) -> Result<WrittenMeasure, WrittenFault> {
    let (value, sd) = match separator(text) {
        None => (text, None),
        Some(sign) => (&text[..sign.start], Some((&text[sign.end..], sign.end))),
    };
    let (value, value_unit) = number_and_unit(value, 0)?;
    let Some((sd, at)) = sd else {
        return Ok(WrittenMeasure { value: value * value_unit.unwrap_or(1.0), sd: None });
    };
    let (sd, sd_unit) = number_and_unit(sd, at)?;
    let unit = value_unit.or(sd_unit).unwrap_or(1.0);
    Ok(WrittenMeasure { value: value * unit, sd: Some(sd * sd_unit.unwrap_or(unit)) })
}

fn separator(text: &str) -> Option<Range<usize>> {
    ["±", "+/-", "+-"].into_iter().find_map(|sign| text.find(sign).map(|at| at..at + sign.len()))
}

/// A number and the mm of its unit, from a part of the text that begins at byte `offset`.
fn number_and_unit(part: &str, offset: usize) -> Result<(f64, Option<f64>), WrittenFault> {
    let start = part.len() - part.trim_start().len();
    let body = part.trim();
    let place = |from: usize, to: usize| offset + start + from..offset + start + to;
    let fault = |kind, from, to| Err(WrittenFault { kind, place: place(from, to) });
    let digits = body.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(body.len());
    if let Some(at) = body.find(',') {
        return fault(WrittenFaultKind::Comma, at, at + 1);
    }
    if digits == 0 {
        return fault(WrittenFaultKind::NoNumber, 0, body.len());
    }
    // Twelve digits are far more than a head has, and keep every number finite.
    let number = body[..digits].parse().ok().filter(|_| digits <= 12);
    let Some(number) = number else { return fault(WrittenFaultKind::BadNumber, 0, digits) };
    let unit = match body[digits..].trim() {
        "" => None,
        "mm" => Some(1.0),
        "cm" => Some(10.0),
        "in" | "\"" => Some(25.4),
        _ => return fault(WrittenFaultKind::Unit, digits, body.len()),
    };
    Ok((number, unit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("575", 575.0, None)]
    #[case("57.5cm", 575.0, None)]
    #[case(" 575 mm ", 575.0, None)]
    #[case("22.6in", 574.04, None)]
    #[case("22.6\"", 574.04, None)]
    #[case("575±3", 575.0, Some(3.0))]
    #[case("575+-3", 575.0, Some(3.0))]
    #[case("57.5cm +/- 3mm", 575.0, Some(3.0))]
    #[case("57.5 ± 0.3 cm", 575.0, Some(3.0))]
    #[case("57.5cm±0.3", 575.0, Some(3.0))]
    #[case("575±0", 575.0, Some(0.0))]
    fn measures_are_read(#[case] text: &str, #[case] value: f64, #[case] sd: Option<f64>) {
        let read = read_measure(text).unwrap();
        assert!((read.value - value).abs() < 1e-9, "{read:?}");
        assert_eq!(read.sd.map(|sd| (sd * 1e6).round()), sd.map(|sd| (sd * 1e6).round()));
    }

    #[rstest]
    #[case("", WrittenFaultKind::NoNumber, 0..0)]
    #[case("57,5cm", WrittenFaultKind::Comma, 2..3)]
    #[case("5.7.5cm", WrittenFaultKind::BadNumber, 0..5)]
    #[case("57.5 ft", WrittenFaultKind::Unit, 4..7)]
    #[case("1e3", WrittenFaultKind::Unit, 1..3)]
    #[case("-575", WrittenFaultKind::NoNumber, 0..4)]
    #[case("575±", WrittenFaultKind::NoNumber, 5..5)]
    #[case("575±x", WrittenFaultKind::NoNumber, 5..6)]
    #[case("99999999999999", WrittenFaultKind::BadNumber, 0..14)]
    #[case("٥٧٥", WrittenFaultKind::NoNumber, 0..6)]
    fn mistakes_are_found_where_they_stand(
        #[case] text: &str,
        #[case] kind: WrittenFaultKind,
        #[case] place: Range<usize>,
    ) {
        assert_eq!(read_measure(text), Err(WrittenFault { kind, place }));
    }
}
