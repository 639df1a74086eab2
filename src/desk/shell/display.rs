//! No display, a dead one, or no graphics: one clear sentence instead of a crash.

use std::sync::atomic::{AtomicBool, Ordering};

/// Set once a frame has been shown; from then on a failure is a failure of the program.
static SHOWN: AtomicBool = AtomicBool::new(false);

/// The first frame has been shown.
pub fn first_frame_shown() {
    SHOWN.store(true, Ordering::Relaxed);
}

/// What to tell when the window cannot open.
pub fn message(reason: &str) -> String {
    format!(
        "cannot open the desk: {reason}. Without a window use the headless command, for example \
         `pintle run scenarios/healthy.ron` (pintle run SCENARIO)."
    )
}

/// Is there a display that answers? Only X11 and Wayland can be asked beforehand.
pub fn reachable() -> Result<(), String> {
    #[cfg(all(unix, not(target_os = "macos")))]
    {
        unix::reachable()
    }
    #[cfg(not(all(unix, not(target_os = "macos"))))]
    {
        Ok(())
    }
}

/// Until the first frame, a panic of the window or graphics layers becomes our message and exit code 2.
/// The layers run on threads of their own, so a panic hook is the one place that sees them all.
#[expect(clippy::disallowed_methods, reason = "the layers' threads have nobody to hand an exit code to")]
pub fn explain_failures_before_first_frame() {
    let usual = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        let text = info.payload_as_str().unwrap_or_default();
        let place = info.location().map_or("", |l| l.file());
        match reason(text, place).filter(|_| !SHOWN.load(Ordering::Relaxed)) {
            Some(reason) => {
                eprintln!("pintle: {}", message(reason));
                std::process::exit(2);
            }
            None => usual(info),
        }
    }));
}

/// Why a layer below us gave up, or `None` when it was not one of them.
fn reason(text: &str, place: &str) -> Option<&'static str> {
    let from = |names: &[&str]| names.iter().any(|name| place.contains(name));
    if text.contains("Unable to find a GPU") || text.contains("RequestDeviceError") {
        Some("no usable graphics adapter was found (Vulkan, OpenGL, Metal or Direct3D 12)")
    } else if from(&["bevy_render", "wgpu"]) {
        Some("the graphics driver failed to start")
    } else if from(&["bevy_winit", "winit", "x11", "wayland", "xkbcommon"]) {
        Some("the display did not accept a window")
    } else {
        None
    }
}

#[cfg(all(unix, not(target_os = "macos")))]
mod unix {
    use std::net::{TcpStream, ToSocketAddrs};
    use std::os::unix::net::UnixStream;
    use std::path::{Path, PathBuf};
    use std::time::Duration;

    /// A display that answers, as winit will choose it: Wayland first.
    pub fn reachable() -> Result<(), String> {
        let var = |name| std::env::var(name).ok().filter(|v: &String| !v.is_empty());
        match (var("WAYLAND_DISPLAY"), var("DISPLAY")) {
            (Some(name), _) => wayland(&name, var("XDG_RUNTIME_DIR")),
            (None, Some(name)) => x11(&name),
            (None, None) if var("WAYLAND_SOCKET").is_some() => Ok(()),
            (None, None) => Err("no display is set (DISPLAY and WAYLAND_DISPLAY are empty)".into()),
        }
    }

    fn wayland(name: &str, runtime: Option<String>) -> Result<(), String> {
        let path = if Path::new(name).is_absolute() {
            PathBuf::from(name)
        } else {
            PathBuf::from(runtime.unwrap_or_else(|| "/run/user/0".into())).join(name)
        };
        let dead = |_| format!("the display WAYLAND_DISPLAY={name} does not answer");
        UnixStream::connect(path).map(drop).map_err(dead)
    }

    fn x11(name: &str) -> Result<(), String> {
        let dead = || format!("the display DISPLAY={name} does not answer");
        let (host, rest) = name.rsplit_once(':').ok_or_else(dead)?;
        let number: u16 = rest.split('.').next().and_then(|n| n.parse().ok()).ok_or_else(dead)?;
        let answers = if host.is_empty() || host == "unix" || host.starts_with('/') {
            local(number)
        } else {
            let port = 6000_u16.saturating_add(number);
            let addresses = (host, port).to_socket_addrs().map_err(|_| dead())?;
            addresses.into_iter().any(|a| TcpStream::connect_timeout(&a, Duration::from_secs(2)).is_ok())
        };
        if answers { Ok(()) } else { Err(dead()) }
    }

    fn local(number: u16) -> bool {
        let path = format!("/tmp/.X11-unix/X{number}");
        UnixStream::connect(&path).is_ok() || hidden(&path)
    }

    /// Linux also knows X sockets without a file.
    fn hidden(path: &str) -> bool {
        #[cfg(target_os = "linux")]
        {
            use std::os::linux::net::SocketAddrExt;
            use std::os::unix::net::SocketAddr;
            SocketAddr::from_abstract_name(path).is_ok_and(|a| UnixStream::connect_addr(&a).is_ok())
        }
        #[cfg(not(target_os = "linux"))]
        {
            let _ = path;
            false
        }
    }

    #[cfg(test)]
    mod tests {
        use super::*;

        #[test]
        fn dead_and_nonsense_displays_are_refused() {
            assert!(x11(":47631").is_err());
            assert!(x11("nonsense").is_err());
            assert!(wayland("/nonexistent/wayland-9", None).is_err());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn failures_of_the_layers_are_known_and_ours_are_not_hidden() {
        assert!(reason("Unable to find a GPU! Make sure", "bevy_render/src/renderer/mod.rs").is_some());
        assert!(reason("index out of bounds", "src/desk/loop_view/mod.rs").is_none());
        assert!(message("x").contains("pintle run SCENARIO"));
    }
}
