//! What bending does to the tube: walls, stretch, springback, mandrel.

pub mod difficulty;
pub mod process;
pub mod springback;
pub mod wall;
