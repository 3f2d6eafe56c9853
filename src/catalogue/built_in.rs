//! The demo range, compiled in, so that the program works alone anywhere.

macro_rules! profiles {
    ($($path:literal),* $(,)?) => {
        &[$(($path, include_str!(concat!("../../profiles/", $path)))),*]
    };
}

/// Path within a profiles folder, and text, of every file of the demo range.
pub const BUILT_IN: &[(&str, &str)] = profiles![
    "fallbacks.yaml",
    "helmets/dunvarrick.yaml",
    "helmets/haspenfell.yaml",
    "helmets/lantreth.yaml",
    "helmets/quorrie.yaml",
    "helmets/umberlow.yaml",
    "helmets/wexmarsh.yaml",
    "populations/adults.yaml",
    "populations/men.yaml",
    "populations/women.yaml",
    "shop.yaml",
];
