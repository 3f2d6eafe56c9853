//! Colours and strokes. Every kind of reason has its own stroke, so that nobody needs the colours; these are blue, orange
//! and black or white, which people with any colour vision tell apart.

use crate::profile::Nature;

/// The colours of one scheme as red, green, blue.
struct Palette {
    ground: &'static str,
    node: &'static str,
    text: &'static str,
    faint: &'static str,
    geometric: &'static str,
    experience: &'static str,
    stop: &'static str,
}

const LIGHT: Palette = Palette {
    ground: "#ffffff",
    node: "#eef1f4",
    text: "#16191d",
    faint: "#4a525c",
    geometric: "#005a9c",
    experience: "#a34700",
    stop: "#000000",
};

const DARK: Palette = Palette {
    ground: "#14171a",
    node: "#272d34",
    text: "#eceff2",
    faint: "#b3bcc6",
    geometric: "#79bfff",
    experience: "#ffae66",
    stop: "#ffffff",
};

/// The style sheet, whose classes have the names of the kinds: strokes, and the colours for light and dark screens.
pub(super) fn style() -> String {
    format!(
        "<style>\n\
         text{{font-family:sans-serif;font-size:11px}}\n\
         .heading{{font-size:17px;font-weight:bold}}\n\
         .name{{font-size:13px;font-weight:bold;text-anchor:middle}}\n\
         .kind{{text-anchor:middle}}\n\
         .model rect{{stroke-width:1.5}}\n\
         .halo{{fill:none;stroke-width:5}}\n\
         .halo.stop{{stroke-width:9}}\n\
         .line{{fill:none;stroke-width:1.8}}\n\
         .line.experience{{stroke-dasharray:6 4}}\n\
         .line.stop{{stroke-width:5}}\n\
         .core{{fill:none;stroke-width:2}}\n\
         .label rect{{stroke-width:0.8}}\n\
         .way:hover .line{{stroke-width:3.5}}\n\
         .way:hover .line.stop{{stroke-width:7}}\n\
         .way:hover text{{font-weight:bold}}\n\
         {}@media (prefers-color-scheme:dark){{\n{}}}\n\
         </style>\n",
        LIGHT.rules(),
        DARK.rules()
    )
}

impl Palette {
    fn rules(&self) -> String {
        let Self { ground, node, text, faint, geometric, experience, stop } = self;
        let mut rules = format!(
            "svg{{color-scheme:light dark}}\n\
             .ground{{fill:{ground}}}\n\
             .halo,.core{{stroke:{ground}}}\n\
             .label rect{{fill:{ground};stroke:{faint}}}\n\
             .model rect{{fill:{node};stroke:{text}}}\n\
             text{{fill:{text}}}\n\
             .kind,.note{{fill:{faint}}}\n"
        );
        for (nature, colour) in Nature::ALL.into_iter().zip([geometric, experience, stop]) {
            let class = nature.name();
            rules.push_str(&format!(".line.{class}{{stroke:{colour}}}\n.head.{class},text.{class}{{fill:{colour}}}\n"));
        }
        rules
    }
}

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

    pub(in crate::render::svg) fn contrast(a: &str, b: &str) -> f64 {
        let [a, b] = [a, b].map(luminance);
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[rstest]
    #[case(&LIGHT)]
    #[case(&DARK)]
    fn all_text_can_be_read(#[case] palette: &Palette) {
        let Palette { ground, node, text, faint, geometric, experience, stop } = palette;
        for (front, back) in [(text, ground), (text, node), (faint, ground), (faint, node)] {
            assert!(contrast(front, back) >= 4.5, "{front} on {back}");
        }
        for colour in [geometric, experience, stop] {
            assert!(contrast(colour, ground) >= 4.5, "{colour}");
        }
        assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
    }
}
