//! The colours of pages and pictures, on light and on dark screens; paper takes the light ones.
//!
//! Nothing is told by a hue alone: what differs differs by how light it is, by a stroke or by a pattern, too, and in words.
//! The hues are blue, orange and grey, which people with any colour vision tell apart.

/// One scheme, each colour as red, green, blue.
pub(super) struct Scheme {
    /// Behind everything.
    pub(super) ground: &'static str,
    /// Behind boxes.
    pub(super) panel: &'static str,
    /// Words, and edges that matter.
    pub(super) ink: &'static str,
    /// Words beside the point, and lines between things.
    pub(super) faint: &'static str,
    /// What follows from measures; also what can be followed.
    pub(super) geometric: &'static str,
    /// What only the shop knows.
    pub(super) experience: &'static str,
    /// What is out at once.
    pub(super) stop: &'static str,
    /// Grounds by how much is there, from nothing to much, with the words on them: one hue.
    pub(super) shades: [(&'static str, &'static str); 5],
    /// Foam by its strain: loose, light, good, tight, hot spot, each nearer to the ink than the one before.
    pub(super) foam: [&'static str; 5],
    /// A head.
    pub(super) head: &'static str,
}

pub(super) const LIGHT: Scheme = Scheme {
    ground: "#ffffff",
    panel: "#eef1f4",
    ink: "#16191d",
    faint: "#4a525c",
    geometric: "#005a9c",
    experience: "#a34700",
    stop: "#000000",
    shades: [
        ("#0a2f52", "#ffffff"),
        ("#2a6da6", "#ffffff"),
        ("#93bfe2", "#16191d"),
        ("#c9dff1", "#16191d"),
        ("#eef1f4", "#16191d"),
    ],
    foam: ["#e3f0fb", "#b5d5ef", "#9db3bd", "#d47a1f", "#8c2a05"],
    head: "#f6f3ee",
};

pub(super) const DARK: Scheme = Scheme {
    ground: "#14171a",
    panel: "#272d34",
    ink: "#eceff2",
    faint: "#b3bcc6",
    geometric: "#79bfff",
    experience: "#ffae66",
    stop: "#ffffff",
    shades: [
        ("#e3f1fd", "#14171a"),
        ("#86c4fb", "#14171a"),
        ("#2a6da6", "#ffffff"),
        ("#1d4468", "#eceff2"),
        ("#272d34", "#eceff2"),
    ],
    foam: ["#1c3a57", "#2d5f8c", "#6f858f", "#f09a43", "#ffe0c7"],
    head: "#22272c",
};

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use rstest::rstest;

    /// Relative luminance as WCAG 2.1 defines it.
    fn luminance(colour: &str) -> f64 {
        let channel = |at: usize| {
            let value = f64::from(u8::from_str_radix(&colour[at..at + 2], 16).unwrap()) / 255.0;
            if value <= 0.03928 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
    }

    fn contrast(a: &str, b: &str) -> f64 {
        let [a, b] = [a, b].map(luminance);
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// 21 is the most there is, and 4.5 enough for words (WCAG 2.1, 1.4.3).
    #[rstest]
    #[case(&LIGHT)]
    #[case(&DARK)]
    fn all_words_can_be_read(#[case] scheme: &Scheme) {
        let Scheme { ground, panel, ink, faint, geometric, experience, stop, head, .. } = scheme;
        let words = [ink, faint, geometric, experience, stop];
        let pairs = words.into_iter().flat_map(|front| [(front, ground), (front, panel)]);
        for (front, back) in pairs.chain(scheme.shades.iter().map(|(back, front)| (front, back))) {
            assert!(contrast(front, back) >= 4.5, "{front} on {back}");
        }
        assert!(contrast(ink, head) >= 4.5 && contrast(faint, head) >= 4.5);
        assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
    }

    #[rstest]
    #[case(&LIGHT)]
    #[case(&DARK)]
    fn steps_differ_on_grey_paper(#[case] scheme: &Scheme) {
        let shades = scheme.shades.map(|(ground, _)| ground);
        for pair in shades.windows(2).chain(scheme.foam.windows(2)) {
            assert!(contrast(pair[0], pair[1]) >= 1.2, "{pair:?}");
        }
    }

    /// The more strain, the further from the ground; so that each step has its place without a key.
    #[rstest]
    #[case(&LIGHT)]
    #[case(&DARK)]
    fn foam_gets_stronger_with_its_strain(#[case] scheme: &Scheme) {
        for pair in scheme.foam.windows(2) {
            assert!(contrast(pair[0], scheme.ground) < contrast(pair[1], scheme.ground), "{pair:?}");
        }
    }
}
