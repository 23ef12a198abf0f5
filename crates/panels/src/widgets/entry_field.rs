//! A field whose text becomes a value when it is left or entered: what cannot be taken stays in the
//! field, with what is wrong beneath it, and loses nothing.

use egui::{Align, Id, Key, Modifiers, Rect, RichText, TextEdit, Ui, WidgetInfo, WidgetType, vec2};
use elbowroom_bending::text::sentence;
use elbowroom_geometry::Length;
use elbowroom_geometry::units::{EntryError, LengthUnit, format_length_exact, parse_length};

use super::typing::{forget_typing, take_keyboard};

/// Why a text is not taken.
#[derive(Clone, Debug, PartialEq)]
pub enum FieldError {
    /// It cannot be read: what is wrong at which character.
    Unreadable(EntryError),
    /// It can be read and is not allowed.
    Refused(String),
}

impl From<EntryError> for FieldError {
    fn from(error: EntryError) -> Self {
        Self::Unreadable(error)
    }
}

/// What is being typed.
#[derive(Clone, Debug)]
struct Draft {
    text: String,
    /// What the field showed when the typing began.
    over: String,
    error: Option<FieldError>,
}

/// A field called `label` that shows `shown` until it is typed into, and gives what `take` makes of the
/// text once it is entered or left; after Enter the next field of the panel has the keyboard. Escape brings back what was
/// there.
pub fn entry_field<T>(
    ui: &mut Ui,
    label: &str,
    shown: &str,
    take: impl Fn(&str) -> Result<T, FieldError>,
) -> Option<T> {
    ui.vertical(|ui| {
        let (given, error) = bare_entry_field(ui, label, shown, take);
        if let Some(error) = &error {
            tell(ui, error);
        }
        given
    })
    .inner
}

/// The same without room of its own for what is wrong, which is given back to be told where there is room:
/// see [`tell`].
pub fn bare_entry_field<T>(
    ui: &mut Ui,
    label: &str,
    shown: &str,
    take: impl Fn(&str) -> Result<T, FieldError>,
) -> (Option<T>, Option<FieldError>) {
    let id = ui.id().with(("entry field", label));
    let kept: Option<Draft> = ui.data(|data| data.get_temp(id));
    // A text typed over one value says nothing of another, such as that of the next part opened.
    let kept = kept.filter(|draft| draft.over == shown);
    let mut draft = kept.unwrap_or_else(|| Draft { text: shown.to_owned(), over: shown.to_owned(), error: None });
    let before = draft.text.clone();
    if is_next(ui) {
        take_keyboard(ui, id.with("text"), &draft.text);
    }
    let edit = TextEdit::singleline(&mut draft.text)
        .id(id.with("text"))
        .desired_width(ui.available_width())
        .vertical_align(Align::Center);
    let edit = edit.min_size(vec2(0.0, ui.spacing().interact_size.y));
    let response = ui.add(edit);
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(WidgetType::TextEdit, true, label);
        info.current_text_value = Some(before.clone());
        info
    });
    let mut given = None;
    // egui takes the keyboard away on escape; here the key also brings back what was there, and its
    // work is done with that.
    let escaped = response.lost_focus() && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
    if escaped {
        draft.error = None;
        forget(ui, id);
    } else if response.changed() && !response.lost_focus() {
        draft.error = None;
        keep(ui, id, &draft);
    } else if response.lost_focus() && draft.text != shown {
        match take(&draft.text) {
            Ok(value) => {
                forget(ui, id);
                given = Some(value);
            }
            Err(error) => {
                draft.error = Some(error);
                keep(ui, id, &draft);
            }
        }
    } else if response.lost_focus() {
        forget(ui, id);
    }
    let error = if given.is_some() { None } else { draft.error };
    let entered = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    if entered && error.is_none() {
        forget_typing(ui);
        give_next_the_keyboard(ui);
    }
    (given, error)
}

/// The next field of this panel that is drawn takes the keyboard, its text marked to be typed over.
pub fn give_next_the_keyboard(ui: &Ui) {
    let here = place(ui);
    ui.data_mut(|data| data.insert_temp(next_id(), here));
}

/// A field for a length: typed in any unit, bare numbers in `unit`.
pub fn length_field<T>(
    ui: &mut Ui,
    label: &str,
    value: Length,
    unit: LengthUnit,
    take: impl Fn(Length) -> Result<T, FieldError>,
) -> Option<T> {
    entry_field(ui, label, &shown_length(value, unit), |text| take(parse_length(text, unit)?))
}

/// A length as a field shows it: in full where that is short, else to a thousandth of a millimetre.
pub fn shown_length(value: Length, unit: LengthUnit) -> String {
    let exact = format_length_exact(value, unit);
    if exact.len() <= 12 {
        return exact;
    }
    let decimals = unit.decimals() + 2;
    elbowroom_geometry::units::format_length(value, unit, decimals)
}

/// A pass of drawing and the panel that is drawn.
type Place = (u64, Rect);

fn place(ui: &Ui) -> Place {
    (ui.ctx().cumulative_pass_nr(), ui.clip_rect())
}

fn next_id() -> Id {
    Id::new("the next entry field takes the keyboard")
}

/// Whether Enter was pressed in the field before this one, in the same panel, or it was given the keyboard otherwise.
fn is_next(ui: &Ui) -> bool {
    let asked: Option<Place> = ui.data(|data| data.get_temp(next_id()));
    let next = asked == Some(place(ui));
    if next {
        ui.data_mut(|data| data.remove::<Place>(next_id()));
    }
    next
}

fn keep(ui: &Ui, id: Id, draft: &Draft) {
    ui.data_mut(|data| data.insert_temp(id, draft.clone()));
}

fn forget(ui: &Ui, id: Id) {
    ui.data_mut(|data| data.remove::<Draft>(id));
}

/// Tells what is wrong with a typed text.
pub fn tell(ui: &mut Ui, error: &FieldError) {
    let ink = ui.visuals().error_fg_color;
    match error {
        FieldError::Unreadable(error) => {
            ui.label(RichText::new(error.caret()).monospace().color(ink));
            let (what, right) = (&error.what, sentence(&error.would_be_right));
            ui.label(RichText::new(format!("Character {}: {what}. {right}", error.at + 1)).color(ink));
        }
        FieldError::Refused(reason) => {
            ui.label(RichText::new(reason).color(ink));
        }
    }
}
