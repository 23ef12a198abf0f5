//! Changes to the shop: made, written to the shop's own file, taken back.

use std::sync::Arc;

use elbowroom_bending::{Edit, Shop, ShopEdit, System, SystemEdit};

use crate::Workbench;
use crate::shelf::file::{
    BUILT_IN_SHOP_TEXT, built_in_shop, read_plain_text, read_shop, save_atomically, shop_raised, with_shop, write_shop,
};
use elbowroom_bending::text::sentence;

/// What a shop of the user's own is called until they call it otherwise.
const OWN_NAME: &str = "Own shop";

/// What is to be said about a shop that was written.
type Told = Option<String>;

impl Workbench {
    /// Changes the shop as one step, and writes it to its file. One that changes nothing makes no step. Tubes that were put
    /// on a die set by its name stay on it where it goes by another one.
    pub(crate) fn edit_shop(&mut self, edit: &ShopEdit) {
        self.drop_preview();
        let shop = match edit.applied_to(self.shop()) {
            Ok(shop) if shop == **self.shop() => return,
            Ok(shop) => Arc::new(self.own(shop)),
            Err(refusal) => return self.refuse_edit(sentence(&refusal.said(self.system().units()))),
        };
        match self.keep_shop(&shop) {
            Ok(told) => {
                self.forget_refusal();
                let system = edit.renames_die().and_then(|(was, now)| self.system_on(was, now));
                let is_changed = system.is_some();
                self.document.edit_shop(edit.label(), shop, system);
                self.show_anew();
                if is_changed {
                    self.note_change();
                }
                if let Some(told) = told {
                    self.done(told);
                }
            }
            Err(problem) => self.refuse_edit(format!("The shop stays as it is. {}", sentence(&problem))),
        }
    }

    /// A shop that is about to be the user's own is called so, unless they call it otherwise.
    fn own(&self, mut shop: Shop) -> Shop {
        let begins = self.shop_file.is_none() && self.home.is_some();
        if begins && shop.name == built_in_shop().name {
            OWN_NAME.clone_into(&mut shop.name);
        }
        shop
    }

    /// The tubes with those on one die set put on another; `None` where none is on it.
    fn system_on(&self, was: &str, now: &str) -> Option<Arc<System>> {
        let committed = &self.document.committed().system;
        let on_it = committed.tubes().iter().filter(|tube| tube.part.tooling.die.as_deref() == Some(was));
        let mut system: Option<System> = None;
        for tube in on_it {
            let edit = SystemEdit::ChangeTube(tube.id, Edit::ChooseDie(Some(now.to_owned())));
            system = edit.applied_to(system.as_ref().unwrap_or(committed)).ok().or(system);
        }
        system.map(Arc::new)
    }

    /// Writes a shop in place of the one that is used: to the file that is used, or, on the built-in shop,
    /// to a file of the user's own. Without a home it is only kept in memory.
    ///
    /// # Errors
    /// Says why it could not be written; the file then holds what it held before.
    pub(crate) fn keep_shop(&mut self, shop: &Shop) -> Result<Told, String> {
        let (file, begun) = match (&self.shop_file, &self.home) {
            (Some(file), _) => (file.clone(), false),
            (None, None) => return Ok(None),
            (None, Some(home)) => (home.own_shop(), true),
        };
        let name = file.display().to_string();
        let text = if begun {
            if file.exists() {
                return Err(format!(
                    "The built-in shop is used now, and {name} is there; use your own shop first, and mend it if it cannot be read"
                ));
            }
            BUILT_IN_SHOP_TEXT.to_owned()
        } else if file.exists() {
            let text = read_plain_text(&file).map_err(|problem| problem.to_string())?;
            let there = read_shop(&text, &name).map_err(|problem| problem.to_string())?;
            // Somebody may have changed it in a text editor; their figures are not to be written over.
            if there != **self.shop() {
                return Err(format!("{name} has been changed since it was read; use it again, then make your change"));
            }
            text
        } else {
            write_shop(self.shop())
        };
        let kept = with_shop(&text, shop);
        let raised = shop_raised(&text);
        let comments_lost = kept.is_none() && text.contains("//");
        let text = kept.unwrap_or_else(|| write_shop(shop));
        if begun && let Some(folder) = file.parent() {
            std::fs::create_dir_all(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
        }
        save_atomically(&file, &text).map_err(|problem| problem.to_string())?;
        self.shop_file = Some(file);
        // The page of the shop names the file itself.
        let begun = (begun && !self.screen.shop_open)
            .then(|| format!("Your own shop file is now {name}; what you find out is kept there."));
        let lost = comments_lost.then(|| format!("Written to {name}; the comments in it could not be kept."));
        let raised = raised.map(|raised| format!("{name}: {raised}"));
        let told: Vec<String> = [begun, lost, raised].into_iter().flatten().collect();
        Ok((!told.is_empty()).then(|| told.join(" ")))
    }
}
