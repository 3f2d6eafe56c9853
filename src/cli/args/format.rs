//! Formats of commands that have no more of their own.

use clap::ValueEnum;

/// Of a command without pages and pictures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedFormat {
    Text,
    Json,
}

/// Of a command that makes pages, but no pictures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedPageFormat {
    Text,
    Json,
    Html,
}

/// Of a command that makes pages and pictures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum TypedPictureFormat {
    Text,
    Json,
    Html,
    Svg,
}
