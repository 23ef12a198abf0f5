//! The question that must be answered before the program goes on: unsaved work, or work left by a crash.

use std::fmt;

use egui::{Button, Frame, Id, Label, Margin, Modal, RichText, TextStyle, Ui};
use elbowroom_bending::text::harmless;
use elbowroom_workbench::{Command, Question, Workbench};

use crate::colours::{colour, colours};

/// One way to answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// What the button says.
    pub text: &'static str,
    /// What it asks for.
    pub command: Command,
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The question in one sentence.
    pub title: String,
    /// What each answer does.
    pub text: String,
    /// The answers, safest first; the first one is meant by Enter.
    pub answers: Vec<Answer>,
    /// What Escape means, where it means anything.
    pub on_escape: Option<Command>,
}

impl Model {
    /// The question that waits.
    pub fn of(workbench: &Workbench) -> Option<Self> {
        let answer = |text, command| Answer { text, command };
        Some(match workbench.screen().question.as_ref()? {
            Question::Unsaved { then } => Self {
                title: format!("Save the changes to “{}”?", workbench.system().title()),
                text: format!("They are in no file yet, and {} would lose them.", doing(then)),
                answers: vec![
                    answer("Save", Command::AnswerSave),
                    answer("Lose the changes", Command::AnswerDiscard),
                    answer("Go back", Command::AnswerCancel),
                ],
                on_escape: Some(Command::AnswerCancel),
            },
            Question::Changed { file, .. } => Self {
                title: "Save over what somebody else has saved?".into(),
                text: format!(
                    "{} holds something else than this window has read from it or written to it: another program or window has changed it. Nothing has been written yet.",
                    harmless(&file.display().to_string())
                ),
                answers: vec![
                    answer("Save mine under another name", Command::AnswerOtherName),
                    answer("Save mine over it", Command::AnswerSave),
                    answer("Open theirs, lose mine", Command::AnswerDiscard),
                    answer("Go back", Command::AnswerCancel),
                ],
                on_escape: Some(Command::AnswerCancel),
            },
            Question::Recovery { name, age } => Self {
                title: format!("Take back the work on “{name}”?"),
                text: format!(
                    "The program ended without saving it, {age}. Taking it back opens it as unsaved work; throwing it away cannot be undone."
                ),
                answers: vec![
                    answer("Take it back", Command::TakeBackRecovery),
                    answer("Later", Command::AnswerCancel),
                    answer("Throw it away", Command::DiscardRecovery),
                ],
                on_escape: Some(Command::AnswerCancel),
            },
        })
    }
}

/// What is about to be done, in words.
fn doing(then: &Command) -> &'static str {
    match then {
        Command::Quit => "closing the program",
        Command::New => "starting a new part",
        Command::AskOpen | Command::Open(_) | Command::OpenDemo(_) => "opening another part",
        Command::TakeBackRecovery => "taking back other work",
        _ => "going on",
    }
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(formatter, "{}\n{}", self.title, self.text)?;
        for answer in &self.answers {
            writeln!(formatter, "({})", answer.text)?;
        }
        Ok(())
    }
}

/// Draws the question above everything else.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let palette = colours(ui);
    let context = ui.ctx().clone();
    let width = (context.content_rect().width() - 48.0).clamp(200.0, 460.0);
    let frame = Frame::window(ui.style()).inner_margin(Margin::same(20));
    let modal = Modal::new(Id::new("question")).frame(frame).backdrop_color(colour(palette.dim));
    let mut commands = Vec::new();
    modal.show(&context, |ui| {
        ui.set_width(width);
        ui.add(Label::new(RichText::new(&model.title).text_style(TextStyle::Heading)).wrap());
        ui.add_space(4.0);
        ui.add(Label::new(&model.text).wrap());
        ui.add_space(10.0);
        ui.horizontal_wrapped(|ui| {
            for (index, answer) in model.answers.iter().enumerate() {
                let button = if index == 0 {
                    let text = RichText::new(answer.text).color(colour(palette.on_accent));
                    Button::new(text).fill(colour(palette.accent))
                } else {
                    Button::new(answer.text)
                };
                let response = ui.add(button);
                // The safest answer has the keyboard, unless Tab has moved it to another one.
                let nobody = ui.memory(|memory| memory.focused().is_none());
                if index == 0 && nobody {
                    response.request_focus();
                }
                if response.clicked() {
                    commands.push(answer.command.clone());
                }
            }
        });
    });
    if let Some(command) = &model.on_escape
        && ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, egui::Key::Escape))
    {
        commands.push(command.clone());
    }
    commands
}
