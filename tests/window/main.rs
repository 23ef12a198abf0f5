//! The real program under a virtual display of its own: dragged, typed into, killed, and read back.
//!
//! Needs Xvfb, xdotool and a Vulkan driver (Debian: `xvfb xdotool imagemagick mesa-vulkan-drivers`). Where one
//! is missing the tests say so loudly and pass; with `CI=true` they fail instead.

#![allow(clippy::unwrap_used, clippy::panic)]

mod account;
mod crash;
mod display;
mod drag;
mod files;
mod large;
mod marks;
mod program;
mod start;
mod tubes;
