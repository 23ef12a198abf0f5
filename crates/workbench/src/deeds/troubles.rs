//! Troubles that stay on the screen: raised, dealt with, and gone when what was wrong is right again.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::{fs, io};

use elbowroom_bending::Shop;
use elbowroom_bending::text::harmless_lines;

use crate::desk::trouble::{About, Deal, Trouble};
use crate::shelf::disk::{RealDisk, is_nothing_there};
use crate::shelf::file::{FileProblem, read_plain_text, read_shop};
use crate::shelf::keeper::{Keeper, Kept, Pace, Places};
use crate::shelf::recovery::{self, Hold};
use crate::shelf::settings::Settings;
use crate::{Home, Workbench};
use elbowroom_bending::text::sentence;

impl Workbench {
    /// What went wrong and has not been dealt with yet.
    pub fn troubles(&self) -> &[Trouble] {
        &self.screen.troubles
    }

    /// The shop file that was asked for and could not be used, while nobody has said that the one in use will
    /// do.
    pub fn shop_missed(&self) -> Option<&Path> {
        self.screen.troubles.iter().find_map(|trouble| match &trouble.about {
            About::Shop(path) => Some(path.as_path()),
            _ => None,
        })
    }

    /// Hears what the threads that write have to say, and gives whether there was anything. Whoever draws
    /// calls it whenever the workbench has woken them.
    pub fn hear(&mut self) -> bool {
        let saved = self.hear_saved();
        let kept = self.keeper.as_ref().and_then(Keeper::heard);
        let heard = saved || kept.is_some();
        if let Some(kept) = kept {
            self.hear_kept(kept);
        }
        heard
    }

    fn hear_kept(&mut self, kept: Kept) {
        let work = kept.work.map(|why| format!("no recovery copy of your work is kept: {why}. It is tried again"));
        let settings = kept.settings.map(|why| format!("the settings are not kept: {why}"));
        for (about, text) in [(About::KeepingWork, work), (About::KeepingSettings, settings)] {
            match text {
                Some(text) => self.raise(about, &text),
                None => self.lower(&about),
            }
        }
    }

    /// Puts a trouble on the screen, in place of an earlier one about the same.
    pub(crate) fn raise(&mut self, about: About, text: &str) {
        // Names of files and parts are told as text, whatever they hold.
        let text = harmless_lines(&sentence(text)).into_owned();
        let troubles = &mut self.screen.troubles;
        match troubles.iter_mut().find(|trouble| trouble.about == about) {
            Some(trouble) => trouble.text = text,
            None => troubles.push(Trouble { about, text }),
        }
    }

    /// Takes a trouble off the screen.
    pub(crate) fn lower(&mut self, about: &About) {
        self.screen.troubles.retain(|trouble| trouble.about != *about);
    }

    /// Takes every trouble about a shop off the screen: another one is used now.
    pub(crate) fn lower_shops(&mut self) {
        self.screen.troubles.retain(|trouble| !matches!(trouble.about, About::Shop(_)));
    }

    /// Deals with a trouble.
    pub(crate) fn deal(&mut self, about: &About, deal: Deal) {
        if !self.screen.troubles.iter().any(|trouble| trouble.about == *about) {
            return;
        }
        match (about, deal) {
            (About::Shop(path), Deal::Again) => self.use_shop(path),
            (About::Settings, Deal::Again) => self.read_settings_again(),
            (About::Settings, Deal::Accept) => self.start_settings_afresh(),
            (About::KeepingSettings | About::KeepingWork, Deal::Again) => {
                if let Some(keeper) = &self.keeper {
                    keeper.try_again();
                }
            }
            (About::RecoveryFolder, Deal::Again) => {
                self.lower(about);
                self.begin_to_keep();
                self.note_change();
            }
            (About::LeftWork(path), Deal::Again) => self.look_again(path),
            (About::WorkWaits, _) => self.ask_about_recovery(),
            (_, Deal::Accept) => self.lower(about),
        }
    }

    /// Reads the settings, and tells where that cannot be done.
    pub(crate) fn read_settings(&mut self, home: &Home) {
        match Settings::read(&home.settings()) {
            Ok(settings) => {
                self.lower(&About::Settings);
                self.settings = settings;
                self.settings.dress(&mut self.screen);
            }
            Err(problem) => {
                let text = format!(
                    "{problem}; the usual settings are used, and nothing is written to that file until you say so"
                );
                self.raise(About::Settings, &text);
            }
        }
    }

    fn read_settings_again(&mut self) {
        if let Some(home) = self.home.clone() {
            self.read_settings(&home);
        }
    }

    /// Puts settings that cannot be read aside and writes new ones.
    fn start_settings_afresh(&mut self) {
        let Some(home) = self.home.clone() else { return };
        match put_aside(&home.settings()) {
            Ok(copy) => {
                self.lower(&About::Settings);
                self.remember();
                if let Some(copy) = copy {
                    self.done(format!("What the settings file held is kept as {}.", copy.display()));
                }
            }
            Err(error) => {
                let name = home.settings().display().to_string();
                let why = crate::shelf::disk::reason(&error);
                self.raise(About::Settings, &format!("{name}: it cannot be read, and not be put aside either: {why}"));
            }
        }
    }

    /// Takes a recovery file and starts the thread that writes to it, and tells where that cannot be done.
    pub(crate) fn begin_to_keep(&mut self) {
        let Some(home) = self.home.clone() else { return };
        let unkept = |why: &dyn std::fmt::Display| format!("no recovery copy of your work can be kept: {why}");
        let folder = home.recovery();
        self.hold = match Hold::take(folder) {
            Ok(hold) => Some(hold),
            Err(error) => {
                let why = format!("{}: {}", folder.display(), crate::shelf::disk::reason(&error));
                self.raise(About::RecoveryFolder, &unkept(&why));
                None
            }
        };
        let work = self.hold.as_ref().map(|hold| hold.work().to_owned());
        let places = Places { work, settings: home.settings(), disk: Arc::new(RealDisk) };
        match Keeper::start(places, Pace::USUAL) {
            Ok(keeper) => {
                if let Some(waker) = &self.waker {
                    keeper.wake_with(waker);
                }
                self.keeper = Some(keeper);
            }
            Err(error) => self.raise(About::RecoveryFolder, &unkept(&error)),
        }
    }

    /// Looks for work that a crash left behind.
    pub(crate) fn look_for_work(&mut self, folder: &Path) {
        match recovery::offers(folder) {
            Ok((offers, problems)) => {
                self.offers = offers.into();
                for (path, problem) in problems {
                    self.raise(About::LeftWork(path), &unreadable_work(&problem));
                }
            }
            Err(error) => {
                let why = format!("{}: {}", folder.display(), crate::shelf::disk::reason(&error));
                self.raise(About::RecoveryFolder, &format!("the folder for recovery cannot be read: {why}"));
            }
        }
    }

    /// Looks again at work that could not be read.
    fn look_again(&mut self, path: &Path) {
        let about = About::LeftWork(path.to_owned());
        match recovery::offer(path) {
            Ok(offer) => {
                self.lower(&about);
                self.offers.extend(offer);
                self.ask_about_recovery();
            }
            Err(problem) => self.raise(about, &unreadable_work(&problem)),
        }
    }

    /// Tells that a shop which was asked for is not the one that is used.
    pub(crate) fn miss_shop(&mut self, path: &Path, problem: &FileProblem) {
        let used = &self.shop().name;
        let text = format!("{problem}; everything is judged on the shop \u{201c}{used}\u{201d} until that is mended");
        self.raise(About::Shop(path.to_owned()), &text);
    }
}

/// The shop in a file; `None` where there is no such file. A link that leads to nothing is a file that
/// cannot be read.
pub(crate) fn read_shop_file(path: &Path) -> Result<Option<Shop>, FileProblem> {
    if is_nothing_there(path) {
        return Ok(None);
    }
    read_shop(&read_plain_text(path)?, &path.display().to_string()).map(Some)
}

/// Gives a file another name beside it that is not taken; `None` where there is no file.
fn put_aside(path: &Path) -> io::Result<Option<PathBuf>> {
    if is_nothing_there(path) {
        return Ok(None);
    }
    let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let names = (1..).map(|count| path.with_file_name(format!("{stem}-not-read-{count}.ron")));
    let Some(copy) = names.into_iter().find(|name| is_nothing_there(name)) else { return Ok(None) };
    fs::rename(path, &copy)?;
    Ok(Some(copy))
}

fn unreadable_work(problem: &FileProblem) -> String {
    format!("work that a crash left behind cannot be read: {problem}; the file is left as it is")
}
