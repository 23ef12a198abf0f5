//! A workbench with a disk: settings, the user's own shop, and recovery of work after a crash.

use std::fs;
use std::path::Path;
use std::sync::Arc;
use std::time::SystemTime;

use elbowroom_bending::Shop;
use elbowroom_geometry::units::LengthUnit;

use crate::deeds::documents::new_part;
use crate::deeds::troubles::read_shop_file;
use crate::shelf::disk::{Seen, is_nothing_there};
use crate::shelf::file::{
    BUILT_IN_SHOP_TEXT, built_in_shop, demo_parts, read_plain_text, read_shop, save_atomically, sweep, sweep_beside,
};
use crate::{About, Home, Question, Workbench};
use elbowroom_bending::text::sentence;

/// The demo part that the program opens with.
const FIRST_DEMO: &str = "sump-sweep";

impl Workbench {
    /// Starts in a user's home: with the settings as they were left, on the user's own shop if there is
    /// one, with a demo part on the bench; and offers the work that a crash left behind. What is broken
    /// there is told on the screen and left as it is.
    pub fn at_home(home: Home) -> Self {
        sweep_beside(&home.own_shop());
        sweep(home.recovery());
        let (shop, shop_file, missed) = match read_shop_file(&home.own_shop()) {
            Ok(Some(shop)) => (shop, Some(home.own_shop()), None),
            Ok(None) => (built_in_shop(), None, None),
            Err(problem) => (built_in_shop(), None, Some(problem)),
        };
        let mut workbench = Self::new(first_part(&shop), shop);
        workbench.shop_file = shop_file;
        if let Some(problem) = missed {
            workbench.miss_shop(&home.own_shop(), &problem);
        }
        workbench.home = Some(home.clone());
        workbench.read_settings(&home);
        workbench.look_for_work(home.recovery());
        workbench.begin_to_keep();
        workbench.ask_about_recovery();
        workbench
    }

    /// Takes the settings from the screen and has them written.
    pub(crate) fn remember(&mut self) {
        self.settings.theme = self.screen.theme;
        self.settings.scale = self.screen.scale;
        self.settings.bench_open = self.screen.bench_open;
        // Settings that could not be read are not written over without a word.
        let unread = self.screen.troubles.iter().any(|trouble| trouble.about == About::Settings);
        if let Some(keeper) = self.keeper.as_ref().filter(|_| !unread) {
            keeper.settings(self.settings.text());
        }
    }

    /// Uses a shop file that was chosen by hand.
    pub(crate) fn use_shop(&mut self, path: &Path) {
        match read_plain_text(path).and_then(|text| read_shop(&text, &path.display().to_string())) {
            Ok(shop) => {
                let name = shop.name.clone();
                self.take_shop(shop);
                self.shop_file = Some(path.to_owned());
                self.done(format!("The shop is now \u{201c}{name}\u{201d}, from {}.", path.display()));
            }
            Err(problem) => self.miss_shop(path, &problem),
        }
    }

    /// Goes back to the user's own shop, or the built-in one where there is none.
    pub(crate) fn use_own_shop(&mut self) {
        let own = self.home.as_ref().map(Home::own_shop).filter(|own| !is_nothing_there(own));
        match own {
            Some(own) => self.use_shop(&own),
            None => {
                self.take_shop(built_in_shop());
                self.shop_file = None;
                self.done("The shop is now the built-in one; its figures are common practice.");
            }
        }
    }

    /// Puts a copy of the built-in shop where the user's own one belongs, and uses it.
    pub(crate) fn make_own_shop(&mut self) {
        let Some(own) = self.home.as_ref().map(Home::own_shop) else {
            return self.refuse("There is no folder for a shop file of your own on this machine.");
        };
        if own.exists() {
            let name = own.display();
            return self
                .refuse(format!("There is a shop file of your own already: {name}. Use your own shop to change it."));
        }
        let made = match own.parent().map_or(Ok(()), fs::create_dir_all) {
            Ok(()) => save_atomically(&own, BUILT_IN_SHOP_TEXT).map_err(|problem| problem.to_string()),
            Err(error) => Err(format!("{}: {error}", own.display())),
        };
        match made {
            Ok(()) => {
                self.use_shop(&own);
                let name = own.display();
                self.done(format!(
                    "Your own shop file is {name}. Set up the shop to change it, or change the file in any text editor."
                ));
            }
            Err(problem) => self.refuse(sentence(&problem)),
        }
    }

    /// Whether there is a place for a shop file of the user's own, and none there yet.
    pub fn can_make_own_shop(&self) -> bool {
        self.home.as_ref().is_some_and(|home| !home.own_shop().exists())
    }

    fn take_shop(&mut self, shop: Shop) {
        self.drop_preview();
        self.lower_shops();
        self.document.use_shop(Arc::new(shop));
        self.show_anew();
    }

    /// Opens the work that a crash left behind as unsaved work. Its recovery file goes only when the work
    /// stands in the file of this program.
    pub(crate) fn take_back_recovery(&mut self) {
        self.screen.question = None;
        let Some(offer) = self.offers.pop_front() else {
            return self.refuse("There is no work to take back.");
        };
        self.say_that_work_waits();
        self.safe = None;
        self.file.clone_from(&offer.file);
        self.take_up(Arc::clone(&offer.system));
        self.saving.seen = match &offer.seen {
            Some(seen) => seen.clone(),
            // A file that nobody has written to since that program began is as it read it.
            None => offer.file.as_deref().and_then(|file| still_of(file, offer.began?)).into_iter().collect(),
        };
        self.note_change();
        let Some(keeper) = &self.keeper else { return };
        keeper.flush();
        let outcome = match keeper.kept().work {
            Some(trouble) => Err(trouble),
            None => offer.remove().map_err(|error| format!("the recovery file stays: {error}")),
        };
        match outcome {
            Ok(()) => self.done("Your work is back. It is in no file yet: save it."),
            Err(trouble) => self.refuse(sentence(&trouble)),
        }
    }

    /// Throws away the work that a crash left behind, and asks about the next piece.
    pub(crate) fn discard_recovery(&mut self) {
        self.screen.question = None;
        let Some(offer) = self.offers.pop_front() else {
            return self.refuse("There is no work to throw away.");
        };
        if let Err(error) = offer.remove() {
            self.refuse(format!("The recovery file could not be removed: {error}."));
        }
        self.ask_about_recovery();
    }

    pub(crate) fn ask_about_recovery(&mut self) {
        self.lower(&About::WorkWaits);
        self.screen.question = self
            .offers
            .front()
            .map(|offer| Question::Recovery { name: offer.system.title().to_owned(), age: offer.age.clone() });
    }

    /// Says that work which a crash left behind waits, where there is any.
    pub(crate) fn say_that_work_waits(&mut self) {
        let text = self.offers.front().map(|offer| {
            format!(
                "work on \u{201c}{}\u{201d} that was not saved, of {}, waits to be taken back",
                offer.system.title(),
                offer.age
            )
        });
        match text {
            Some(text) => self.raise(About::WorkWaits, &text),
            None => self.lower(&About::WorkWaits),
        }
    }
}

/// What a file holds, where nobody has written to it since a time.
fn still_of(file: &Path, since: SystemTime) -> Option<Seen> {
    let written = fs::metadata(file).and_then(|data| data.modified()).ok()?;
    let text = read_plain_text(file).ok().filter(|_| written < since)?;
    Some(Seen::of(text.as_bytes()))
}

/// The part on the bench at the start: a demo part, or a new one where none can be read.
fn first_part(shop: &Shop) -> elbowroom_bending::Part {
    let demo = demo_parts().find(|demo| demo.name == FIRST_DEMO).or_else(|| demo_parts().next());
    demo.and_then(|demo| demo.read().ok())
        .unwrap_or_else(|| new_part(shop.tubes.first().cloned().unwrap_or_default(), LengthUnit::Millimetre))
}
