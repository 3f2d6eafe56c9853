//! Strokes and colours of graphs. Every kind of reason has its own stroke, so that nobody needs the colours.

use crate::profile::Nature;
use crate::render::colour::Scheme;

/// What doesn't depend on the scheme. The classes of the kinds have their names.
pub(super) const SHAPE: &str = "\
.name{font-size:13px;font-weight:bold;text-anchor:middle}
.kind{text-anchor:middle}
.model rect{stroke-width:1.5}
.halo{fill:none;stroke-width:5}
.halo.stop{stroke-width:9}
.line{fill:none;stroke-width:1.8}
.line.experience{stroke-dasharray:6 4}
.line.stop{stroke-width:5}
.core{fill:none;stroke-width:2}
.label rect{stroke-width:0.8}
.way:hover .line{stroke-width:3.5}
.way:hover .line.stop{stroke-width:7}
.way:hover text{font-weight:bold}
";

/// The colours of a scheme.
pub(super) fn colours(scheme: &Scheme) -> String {
    let Scheme { ground, panel, ink, faint, geometric, experience, stop, .. } = scheme;
    let mut rules = format!(
        ".halo,.core{{stroke:{ground}}}\n\
         .label rect{{fill:{ground};stroke:{faint}}}\n\
         .model rect{{fill:{panel};stroke:{ink}}}\n\
         .kind{{fill:{faint}}}\n"
    );
    for (nature, colour) in Nature::ALL.into_iter().zip([geometric, experience, stop]) {
        let class = nature.name();
        rules.push_str(&format!(".line.{class}{{stroke:{colour}}}\n.head.{class},text.{class}{{fill:{colour}}}\n"));
    }
    rules
}
