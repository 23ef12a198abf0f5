//! Wakes the window at a later time, since it sleeps while nothing happens.

use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::Instant;

use bevy::prelude::Resource;
use bevy::winit::{EventLoopProxyWrapper, WinitUserEvent};

/// Asks for a frame at a later time.
#[derive(Resource)]
pub struct Alarm {
    times: Sender<Instant>,
    set_for: Option<Instant>,
}

impl Alarm {
    /// Starts the thread that waits. Should the system refuse one, the window still wakes on every event.
    pub fn start(window: &EventLoopProxyWrapper) -> Self {
        let window = (**window).clone();
        let wake = move || window.send_event(WinitUserEvent::WakeUp).is_ok();
        Self::with(wake)
    }

    fn with(wake: impl Fn() -> bool + Send + 'static) -> Self {
        let (times, heard) = channel();
        let _ = std::thread::Builder::new().name("alarm".into()).spawn(move || wait(&heard, wake));
        Self { times, set_for: None }
    }

    /// Asks for a frame at `time`, unless one is due before it anyway.
    pub fn wake_at(&mut self, time: Instant) {
        let due_sooner = self.set_for.is_some_and(|due| due <= time && due > Instant::now());
        // A closed channel means that no thread could be started; see `start`.
        if !due_sooner && self.times.send(time).is_ok() {
            self.set_for = Some(time);
        }
    }
}

/// Sleeps until the earliest time heard of, and rings; ends with the window.
fn wait(heard: &Receiver<Instant>, ring: impl Fn() -> bool) {
    let mut due: Option<Instant> = None;
    loop {
        let next = match due {
            None => heard.recv().map_err(|_| RecvTimeoutError::Disconnected),
            Some(time) => heard.recv_timeout(time.saturating_duration_since(Instant::now())),
        };
        match next {
            Ok(time) => due = Some(due.map_or(time, |other| other.min(time))),
            Err(RecvTimeoutError::Disconnected) => return,
            Err(RecvTimeoutError::Timeout) => {
                due = None;
                if !ring() {
                    return;
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use std::time::Duration;

    use super::*;

    #[test]
    fn the_earliest_time_rings_first_and_later_ones_ring_too() {
        let (rung, rings) = channel();
        let mut alarm = Alarm::with(move || rung.send(Instant::now()).is_ok());
        let start = Instant::now();
        alarm.wake_at(start + Duration::from_secs(60));
        alarm.wake_at(start + Duration::from_millis(20));
        let first = rings.recv_timeout(Duration::from_secs(30)).unwrap();
        assert!(first >= start + Duration::from_millis(20));
        alarm.wake_at(Instant::now());
        rings.recv_timeout(Duration::from_secs(30)).unwrap();
    }
}
