//! How a thread tells the window that there is something to hear.

use std::sync::Arc;

/// Wakes whoever draws the workbench, from any thread: something has happened that is to be heard.
pub type Waker = Arc<dyn Fn() + Send + Sync>;
