//! A file that appears whole or not at all: written beside its place, then moved there.
//!
//! One rule for everything the program writes. A new name and an empty file may be written; an older file of the same kind
//! where the writer says so; nothing else is written over. What is no file but a way out (a pipe, a terminal, `/dev/null`,
//! `/dev/stdout`) is written to straight away, for there is nothing to lose there.

use std::fs;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use crate::message::{LINE, fit};
use crate::scenario::source::open_ordinary;

/// Why a file cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum WriteError {
    /// Something is there that must not be lost.
    #[error("{}: {reason}; nothing was written over (hint: name a new file)", shown(.path))]
    Taken {
        /// The file.
        path: PathBuf,
        /// Why it is not replaced.
        reason: &'static str,
    },
    /// The system refused.
    #[error("{}: the file cannot be written: {source}", shown(.path))]
    Io {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// Two outputs of one command would be the same file.
    #[error("{first} and {second} both name {} (hint: give each a file of its own)", shown(.path))]
    Twice {
        /// Which output names it.
        first: &'static str,
        /// Which other one.
        second: &'static str,
        /// The file.
        path: PathBuf,
    },
}

fn shown(path: &Path) -> String {
    fit(&path.display().to_string(), LINE)
}

/// What may be replaced, besides an empty file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Replace {
    /// Nothing.
    Never,
    /// An ordinary file that begins with this text.
    IfBeginsWith(&'static str),
    /// An ordinary file that is a PNG picture.
    IfPicture,
}

/// What every PNG picture begins with (PNG specification, 5.2).
const PICTURE_BEGINS: &[u8] = b"\x89PNG\r\n\x1a\n";
/// So many names are tried for the part: in a container many programs have the same process number.
const MOST_PARTS: usize = 100;

/// Where the text goes meanwhile.
#[derive(Debug)]
enum Way {
    /// Into a part beside the file.
    Part { part: PathBuf, file: io::BufWriter<fs::File>, done: bool },
    /// Straight out.
    Out(io::BufWriter<fs::File>),
    /// To the program's own output or error stream.
    Own(Own),
}

/// A stream that the program has from its start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Own {
    Output,
    Errors,
}

/// A file being written. Dropped before [`NewFile::finish`], it leaves no trace.
#[derive(Debug)]
pub struct NewFile {
    path: PathBuf,
    way: Way,
    replace: Replace,
}

impl NewFile {
    /// Make sure that `path` may be written, and begin beside it.
    ///
    /// # Errors
    /// When something is there that must not be lost, or the system refuses.
    pub fn create(path: &Path, replace: Replace) -> Result<Self, WriteError> {
        let io_error = |source| WriteError::Io { path: path.to_owned(), source };
        let way = match place(path, replace)? {
            Place::Own(own) => Way::Own(own),
            Place::WayOut => {
                let out = fs::OpenOptions::new().write(true).open(path).map_err(io_error)?;
                Way::Out(io::BufWriter::new(out))
            }
            Place::File => {
                let (part, file) = begin_part(path, replace).map_err(io_error)?;
                Way::Part { part, file: io::BufWriter::new(file), done: false }
            }
        };
        Ok(Self { path: path.to_owned(), way, replace })
    }

    /// Would [`Self::create`] do? For who works for long before there is something to write.
    ///
    /// # Errors
    /// As for [`Self::create`].
    pub fn would_do(path: &Path, replace: Replace) -> Result<(), WriteError> {
        match place(path, replace)? {
            // To look at the folder's permissions would be to guess; the part goes at once.
            Place::File => Self::create(path, replace).map(drop),
            Place::Own(_) | Place::WayOut => Ok(()),
        }
    }

    /// Add text.
    ///
    /// # Errors
    /// When the system refuses, such as on a full disk.
    pub fn write(&mut self, text: &str) -> Result<(), WriteError> {
        self.write_bytes(text.as_bytes())
    }

    /// Add bytes.
    ///
    /// # Errors
    /// When the system refuses, such as on a full disk.
    pub fn write_bytes(&mut self, bytes: &[u8]) -> Result<(), WriteError> {
        let written = match &mut self.way {
            Way::Part { file, .. } | Way::Out(file) => file.write_all(bytes),
            Way::Own(Own::Output) => io::stdout().write_all(bytes),
            Way::Own(Own::Errors) => io::stderr().write_all(bytes),
        };
        written.map_err(|e| self.error(e))
    }

    /// The part, for an encoder that wants a path; none where the bytes go straight out.
    pub fn part(&self) -> Option<&Path> {
        match &self.way {
            Way::Part { part, .. } => Some(part),
            Way::Out(_) | Way::Own(_) => None,
        }
    }

    /// Move the finished file to its place.
    ///
    /// # Errors
    /// When the system refuses, or something else has come there meanwhile.
    pub fn finish(mut self) -> Result<(), WriteError> {
        let finished = match &mut self.way {
            Way::Part { file, .. } => file.flush().and_then(|()| file.get_ref().sync_all()),
            Way::Out(file) => file.flush(),
            Way::Own(Own::Output) => io::stdout().flush(),
            Way::Own(Own::Errors) => Ok(()),
        };
        finished.map_err(|e| self.error(e))?;
        let Way::Part { part, .. } = &self.way else { return Ok(()) };
        // Somebody may have put a file there meanwhile.
        if place(&self.path, self.replace)? != Place::File {
            let reason = "something else has taken this name meanwhile";
            return Err(WriteError::Taken { path: self.path.clone(), reason });
        }
        // What only its owner could read stays so.
        if let Ok(old) = fs::metadata(&self.path) {
            fs::set_permissions(part, old.permissions()).map_err(|e| self.error(e))?;
        }
        fs::rename(part, &self.path).map_err(|e| self.error(e))?;
        if let Way::Part { done, .. } = &mut self.way {
            *done = true;
        }
        Ok(())
    }

    /// An error of this file in words of another layer.
    pub fn refuse(&self, reason: String) -> WriteError {
        self.error(io::Error::other(reason))
    }

    fn error(&self, source: io::Error) -> WriteError {
        WriteError::Io { path: self.path.clone(), source }
    }
}

impl Drop for NewFile {
    fn drop(&mut self) {
        if let Way::Part { part, done: false, .. } = &self.way {
            // A leftover that cannot be removed harms nobody.
            let _ = fs::remove_file(part);
        }
    }
}

/// Each output of a command that goes to a file, by its option: none may be another's.
///
/// # Errors
/// The first two that are the same.
pub fn all_apart(outputs: &[(&'static str, Option<&Path>)]) -> Result<(), WriteError> {
    let named = outputs.iter().filter_map(|(option, path)| Some((*option, (*path)?)));
    let mut seen: Vec<(&'static str, PathBuf)> = Vec::new();
    for (option, path) in named {
        let place = settled(path);
        if let Some((first, _)) = seen.iter().find(|(_, other)| *other == place) {
            return Err(WriteError::Twice { first, second: option, path: path.to_owned() });
        }
        seen.push((option, place));
    }
    Ok(())
}

/// The same path for all names of a place, as far as the folder is there.
fn settled(path: &Path) -> PathBuf {
    if let Some(own) = own_stream(path) {
        return PathBuf::from(if own == Own::Output { "/dev/stdout" } else { "/dev/stderr" });
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let whole = |folder: PathBuf| path.file_name().map(|name| folder.join(name));
    fs::canonicalize(path)
        .ok()
        .or_else(|| fs::canonicalize(folder).ok().and_then(whole))
        .unwrap_or(path.into())
}

/// What a path stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Place {
    /// A file that is not there yet or may be replaced.
    File,
    /// A way out with no end.
    WayOut,
    /// A stream of the program's own.
    Own(Own),
}

/// The stream that a path names, if it names one. Opened by its path it would be a second opening of the same file, and what
/// is written to both would lie over each other.
fn own_stream(path: &Path) -> Option<Own> {
    if !cfg!(unix) {
        return None;
    }
    match path.to_str()? {
        "/dev/stdout" | "/dev/fd/1" | "/proc/self/fd/1" => Some(Own::Output),
        "/dev/stderr" | "/dev/fd/2" | "/proc/self/fd/2" => Some(Own::Errors),
        _ => None,
    }
}

/// Is the file a way out, with nothing in it to lose: a pipe, a terminal, `/dev/null`?
fn is_way_out(kind: fs::FileType) -> bool {
    #[cfg(unix)]
    {
        use std::os::unix::fs::FileTypeExt;
        kind.is_fifo() || kind.is_char_device()
    }
    #[cfg(not(unix))]
    {
        let _ = kind;
        false
    }
}

/// What may be written at a path, and how; an error where something would be lost.
fn place(path: &Path, replace: Replace) -> Result<Place, WriteError> {
    let taken = |reason| Err(WriteError::Taken { path: path.to_owned(), reason });
    if let Some(own) = own_stream(path) {
        return Ok(Place::Own(own));
    }
    // A link that leads nowhere is still something.
    let Ok(link) = fs::symlink_metadata(path) else {
        return if path.file_name().is_some() {
            Ok(Place::File)
        } else {
            taken("this is not the name of a file")
        };
    };
    if fs::metadata(path).is_ok_and(|meta| is_way_out(meta.file_type())) {
        return Ok(Place::WayOut);
    }
    if link.is_dir() {
        return taken("this is a directory");
    }
    if link.is_symlink() {
        return taken("this is a link");
    }
    if !link.is_file() {
        return taken("this is not an ordinary file");
    }
    if link.len() == 0 {
        return Ok(Place::File);
    }
    let beginning = match replace {
        Replace::Never => return taken("the file exists already"),
        Replace::IfBeginsWith(text) => text.as_bytes(),
        Replace::IfPicture => PICTURE_BEGINS,
    };
    let mut head = vec![0; beginning.len()];
    let same = open_ordinary(path).and_then(|mut f| f.read_exact(&mut head)).is_ok();
    if same && head == beginning {
        Ok(Place::File)
    } else {
        taken("the file exists already and is of another kind")
    }
}

/// A part beside its place, under a name that nobody has.
fn begin_part(path: &Path, replace: Replace) -> io::Result<(PathBuf, fs::File)> {
    // An encoder tells the kind of picture by the ending.
    let ending = if replace == Replace::IfPicture { ".png" } else { "" };
    let mut number = 0;
    loop {
        // Short, so that it fits wherever the name itself fits.
        let part = path.with_file_name(format!(".pintle-{}-{number}.part{ending}", std::process::id()));
        match fs::File::create_new(&part) {
            Ok(file) => return Ok((part, file)),
            Err(e) if e.kind() == io::ErrorKind::AlreadyExists && number < MOST_PARTS => number += 1,
            Err(e) => return Err(e),
        }
    }
}
