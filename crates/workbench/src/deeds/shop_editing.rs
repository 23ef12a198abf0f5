//! Changes to the shop: made, written to the shop's own file, taken back.

use std::sync::Arc;

use elbowroom_bending::{Shop, ShopEdit};

use crate::Workbench;
use crate::shelf::file::{
    BUILT_IN_SHOP_TEXT, read_plain_text, read_shop, save_atomically, shop_raised, with_springback, write_shop,
};
use elbowroom_bending::text::sentence;

/// What is to be said about a shop that was written.
type Told = Option<String>;

impl Workbench {
    /// Changes the shop as one step, and writes it to its file. One that changes nothing makes no step.
    pub(crate) fn edit_shop(&mut self, edit: &ShopEdit) {
        self.drop_preview();
        let shop = match edit.applied_to(self.shop()) {
            Ok(shop) if shop == **self.shop() => return,
            Ok(shop) => Arc::new(shop),
            Err(refusal) => return self.refuse_edit(sentence(&refusal.to_string())),
        };
        match self.keep_shop(&shop) {
            Ok(told) => {
                self.forget_refusal();
                self.document.edit_shop(edit.label(), shop);
                self.show_anew();
                if let Some(told) = told {
                    self.done(told);
                }
            }
            Err(problem) => self.refuse_edit(format!("The shop stays as it is. {}", sentence(&problem))),
        }
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
        let kept = with_springback(&text, shop).filter(|text| read_shop(text, &name).as_ref() == Ok(shop));
        let raised = shop_raised(&text);
        let comments_lost = kept.is_none() && text.contains("//");
        let text = kept.unwrap_or_else(|| write_shop(shop));
        if begun && let Some(folder) = file.parent() {
            std::fs::create_dir_all(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
        }
        save_atomically(&file, &text).map_err(|problem| problem.to_string())?;
        self.shop_file = Some(file);
        let begun = begun.then(|| format!("Your own shop file is now {name}; what you find out is kept there."));
        let lost = comments_lost.then(|| format!("Written to {name}; the comments in it could not be kept."));
        let raised = raised.map(|raised| format!("{name}: {raised}"));
        let told: Vec<String> = [begun, lost, raised].into_iter().flatten().collect();
        Ok((!told.is_empty()).then(|| told.join(" ")))
    }
}
