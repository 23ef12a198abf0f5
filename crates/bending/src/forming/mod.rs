//! What bending does to the tube: walls, stretch, springback, mandrel.

pub mod difficulty;
pub mod growth;
pub mod mandrel;
pub mod metal;
mod odd_trial;
pub mod ovality;
pub mod process;
pub mod seam;
pub mod springback;
pub mod wall;

pub use crate::model::ground;
