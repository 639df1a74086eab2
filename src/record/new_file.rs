//! A file that appears whole or not at all: written beside its place, then moved there.

use std::fs;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// Why a file cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum WriteError {
    /// Something is there that must not be lost.
    #[error("{}: {reason}; nothing was written over (hint: name a new file)", .path.display())]
    Taken {
        /// The file.
        path: PathBuf,
        /// Why it is not replaced.
        reason: &'static str,
    },
    /// The system refused.
    #[error("{}: the file cannot be written: {source}", .path.display())]
    Io {
        /// The file.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
}

/// What may be replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Replace {
    /// Nothing.
    Never,
    /// An ordinary file whose name ends like the new one's and that begins with this text.
    IfBeginsWith(&'static str),
}

/// A file being written. Dropped before [`NewFile::finish`], it leaves no trace.
#[derive(Debug)]
pub struct NewFile {
    path: PathBuf,
    part: PathBuf,
    file: Option<io::BufWriter<fs::File>>,
    replace: Replace,
}

impl NewFile {
    /// Make sure that `path` may be written, and begin beside it.
    pub fn create(path: &Path, replace: Replace) -> Result<Self, WriteError> {
        check_free(path, replace)?;
        let Some(name) = path.file_name() else {
            return Err(WriteError::Taken {
                path: path.to_owned(),
                reason: "this is not the name of a file",
            });
        };
        let part = path.with_file_name(format!(".{}.{}.part", name.to_string_lossy(), std::process::id()));
        let file =
            fs::File::create_new(&part).map_err(|source| WriteError::Io { path: path.to_owned(), source })?;
        Ok(Self { path: path.to_owned(), part, file: Some(io::BufWriter::new(file)), replace })
    }

    /// Add text.
    pub fn write(&mut self, text: &str) -> Result<(), WriteError> {
        let Some(file) = &mut self.file else { return Ok(()) };
        file.write_all(text.as_bytes()).map_err(|e| self.error(e))
    }

    /// Move the finished file to its place.
    pub fn finish(mut self) -> Result<(), WriteError> {
        if let Some(mut file) = self.file.take() {
            file.flush().and_then(|()| file.get_ref().sync_all()).map_err(|e| self.error(e))?;
        }
        // Somebody may have put a file there meanwhile.
        check_free(&self.path, self.replace)?;
        fs::rename(&self.part, &self.path).map_err(|e| self.error(e))
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
        drop(self.file.take());
        // After `finish` it is no longer there; a leftover that cannot be removed harms nobody.
        let _ = fs::remove_file(&self.part);
    }
}

fn check_free(path: &Path, replace: Replace) -> Result<(), WriteError> {
    let taken = |reason| Err(WriteError::Taken { path: path.to_owned(), reason });
    // A link that leads nowhere is still something.
    let Ok(link) = fs::symlink_metadata(path) else { return Ok(()) };
    if link.is_dir() {
        return taken("this is a directory");
    }
    let Replace::IfBeginsWith(beginning) = replace else { return taken("the file exists already") };
    if !link.is_file() {
        return taken("this is not an ordinary file");
    }
    let mut head = vec![0; beginning.len()];
    let same = fs::File::open(path).and_then(|mut f| f.read_exact(&mut head)).is_ok();
    if same && head == beginning.as_bytes() {
        Ok(())
    } else {
        taken("the file exists already and is of another kind")
    }
}
