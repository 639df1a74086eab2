//! `--screenshot FILE --after SECONDS`: a picture of the window, for documentation and checks.

use std::path::PathBuf;

use bevy::app::AppExit;
use bevy::prelude::*;
use bevy::render::view::screenshot::{Screenshot, ScreenshotCaptured};

use super::frame::Desk;
use super::painting::Painting;
use crate::record::NewFile;
use crate::record::new_file::Replace;

#[derive(Resource)]
struct Wish {
    path: PathBuf,
    after_s: f64,
    asked: bool,
}

/// Take a picture `after_s` after the first frame, then leave.
pub fn plugin(app: &mut App, path: PathBuf, after_s: f64) {
    app.insert_resource(Wish { path, after_s, asked: false }).add_systems(Last, ask).add_observer(keep);
}

fn ask(mut wish: ResMut<Wish>, desk: Res<Desk>, mut painting: ResMut<Painting>, mut commands: Commands) {
    let due = desk.shown.is_some_and(|shown| shown.elapsed().as_secs_f64() >= wish.after_s);
    if due && !wish.asked {
        wish.asked = true;
        commands.spawn(Screenshot::primary_window());
    }
    // It is taken by painting, and comes back with a later frame.
    if wish.asked {
        painting.ask();
    }
}

fn keep(captured: On<ScreenshotCaptured>, wish: Res<Wish>, mut exit: MessageWriter<AppExit>) {
    let picture = captured.image.clone().try_into_dynamic().map_err(|e| e.to_string());
    let saved = picture.and_then(|picture| {
        let file = NewFile::create(&wish.path, Replace::IfPicture).map_err(|e| e.to_string())?;
        let part = file.part().ok_or("a picture needs an ordinary file")?;
        picture.to_rgb8().save(part).map_err(|e| format!("{}: {e}", wish.path.display()))?;
        file.finish().map_err(|e| e.to_string())
    });
    exit.write(match saved {
        Ok(()) => AppExit::Success,
        Err(reason) => {
            eprintln!("pintle: the picture cannot be saved: {reason}");
            AppExit::error()
        }
    });
}
