//! A finding in words, for those who show all of it.

use std::borrow::Cow;
use std::ops::Deref;

use super::cure::Cure;
use super::finding::Facts;
use super::words::Words;
use crate::Edit;

/// A finding in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// What it holds.
    pub facts: Facts,
    /// What its check is called in what people read.
    pub title: &'static str,
    /// One plain sentence or two: what, by how much, where, what helps.
    pub text: String,
    /// What the verdict says if this is the first thing in the way, completing nothing: a full sentence.
    pub verdict: String,
    /// Its cures, best first.
    pub cures: Vec<ToldCure>,
    /// The finding, by its number from 0, one of whose cures cures this one too and is offered there alone.
    pub cured_with: Option<usize>,
}

/// A cure in words.
#[derive(Clone, Debug, PartialEq)]
pub struct ToldCure {
    /// What the button says, such as `Lengthen the straight to 120.0 mm`.
    pub label: String,
    /// The edit that does it.
    pub edit: Edit,
    /// What the cure costs or risks, in a short sentence; empty where nothing.
    pub risk: Cow<'static, str>,
    /// What came of trying it: what it cures, what it brings and what it leaves, in one sentence. Empty where it was not
    /// tried.
    pub outcome: String,
}

impl Deref for Told {
    type Target = Facts;

    fn deref(&self) -> &Facts {
        &self.facts
    }
}

impl Cure {
    /// All of it in words.
    pub fn told(&self, words: &Words) -> ToldCure {
        ToldCure { label: self.label(words), edit: self.edit(), risk: self.risk(words), outcome: String::new() }
    }
}
