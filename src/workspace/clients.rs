//! People's profiles under `clients/`: read one by one when a sheet is made for a person, and by
//! nothing else. [`read`](super::read) never looks here, nor does it follow a link that leads here.

use std::io;
use std::path::{Path, PathBuf};

use super::{Bytes, Content, decode, layout, read_text};
use crate::model::source::Source;

/// The folder of a workspace that holds them.
const FOLDER: &str = "clients";

/// A profile, named as `path` is written, and whether its bytes could be read as text.
pub fn client(path: &Path) -> (Source, Content) {
    let bytes = if path.to_str().is_some() { read_text(path) } else { Bytes::NameNotText };
    let (text, content) = decode(bytes);
    (Source::new(path.to_string_lossy().into_owned(), text), content)
}

/// The profiles that a path means: those that stand directly in a folder, by name, or the one file. An ending in
/// capitals counts, and so does a link that leads nowhere: nobody's sheet is left out without a word.
///
/// # Errors
/// When the folder cannot be listed.
pub fn clients_at(path: &Path) -> io::Result<Vec<PathBuf>> {
    if !path.is_dir() {
        return Ok(vec![path.to_path_buf()]);
    }
    let folder = path;
    let mut profiles = Vec::new();
    for item in std::fs::read_dir(folder)? {
        let path = item?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let is_profile = name.to_ascii_lowercase().ends_with(".toml") && !layout::is_hidden(&name);
        if is_profile && !path.is_dir() {
            profiles.push(path);
        }
    }
    profiles.sort();
    Ok(profiles)
}

/// True when a path, its links followed, leads to the profiles of the workspace.
pub(super) fn holds(root: &Path, path: &Path) -> bool {
    match (root.join(FOLDER).canonicalize(), path.canonicalize()) {
        (Ok(folder), Ok(path)) => path.starts_with(folder),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::os::unix::ffi::OsStrExt;
    use std::os::unix::fs::symlink;

    use super::super::read;
    use super::*;

    const PROFILE: &str = "name = \"Q. Quill\"\nprecautions = []\n";

    #[test]
    fn a_profile_is_decoded_as_every_text_is() {
        let folder = tempfile::tempdir().unwrap();
        for (name, bytes, text, expected) in [
            ("plain.toml", PROFILE.as_bytes(), PROFILE, Content::Text),
            ("marked.toml", b"\xef\xbb\xbfname = 1".as_slice(), "name = 1", Content::Text),
            ("empty.toml", b" \n".as_slice(), " \n", Content::Empty),
            (
                "latin.toml",
                b"name = \"\xe9\"".as_slice(),
                "name = \"\u{fffd}\"",
                Content::NotText { offset: 8 },
            ),
            ("large.toml", &[b'#'; 1_000_001], "", Content::TooLarge { bytes: 1_000_001, most: 1_000_000 }),
        ] {
            let path = folder.path().join(name);
            fs::write(&path, bytes).unwrap();
            let (source, content) = client(&path);
            assert_eq!((source.name.as_str(), source.text.as_str()), (path.to_str().unwrap(), text));
            assert_eq!(content, expected, "{name}");
        }
        for missing in [folder.path().join("nobody.toml"), folder.path().to_path_buf()] {
            let (_, content) = client(&missing);
            assert!(matches!(content, Content::Unreachable { .. }), "{}", missing.display());
        }
        let odd = folder.path().join(std::ffi::OsStr::from_bytes(b"j\xe9.toml"));
        fs::write(&odd, PROFILE).unwrap();
        assert_eq!(client(&odd).1, Content::NameNotText);
    }

    #[test]
    fn a_folder_gives_its_profiles_by_name_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["q.toml", "B.TOML", "a.toml", "notes.md", ".a.toml.swp", ".hidden.toml", "a.toml~"] {
            fs::write(folder.path().join(name), PROFILE).unwrap();
        }
        fs::create_dir(folder.path().join("old.toml")).unwrap();
        fs::create_dir(folder.path().join("deeper")).unwrap();
        fs::write(folder.path().join("deeper/r.toml"), PROFILE).unwrap();
        symlink("nowhere.toml", folder.path().join("moved.toml")).unwrap();
        let found = clients_at(folder.path()).unwrap();
        let names: Vec<_> = found.iter().map(|p| p.file_name().unwrap().to_str().unwrap()).collect();
        assert_eq!(names, ["B.TOML", "a.toml", "moved.toml", "q.toml"]);
        // What is no folder is one profile, which is told when it is read.
        let nowhere = folder.path().join("nowhere");
        assert_eq!(clients_at(&nowhere).unwrap(), [nowhere]);
    }

    #[test]
    fn no_profile_is_among_the_texts_and_media_of_a_workspace() {
        let root = tempfile::tempdir().unwrap();
        let at = |name: &str| root.path().join(name);
        for folder in ["content/exercises", "content/media", "content/pages", "clients"] {
            fs::create_dir_all(at(folder)).unwrap();
        }
        fs::write(at("site.toml"), "title = \"A\"").unwrap();
        fs::write(at("content/media/mine.jpg"), "x").unwrap();
        fs::write(at("clients/quill.toml"), PROFILE).unwrap();
        fs::write(at("clients/quill.md"), PROFILE).unwrap();
        fs::write(at("clients/quill.jpg"), PROFILE).unwrap();
        symlink(at("clients"), at("content/exercises/people")).unwrap();
        symlink(at("clients"), at("content/media/people")).unwrap();
        symlink(at("clients/quill.md"), at("content/pages/quill.md")).unwrap();
        symlink(at("clients/quill.toml"), at("content/pages/quill.toml")).unwrap();
        symlink(at("clients/quill.toml"), at("content/media/quill.toml")).unwrap();
        symlink("mine.jpg", at("content/media/same.jpg")).unwrap();

        let texts = read(root.path()).unwrap();
        for (_, source) in texts.sources.iter() {
            assert!(!source.text.contains("Quill"), "{}", source.name);
            assert!(!source.name.starts_with("clients/"), "{}", source.name);
        }
        assert_eq!(texts.attachments.iter().collect::<Vec<_>>(), ["media/mine.jpg", "media/same.jpg"]);
        let told = texts.files.iter().filter(|f| matches!(f.content, Content::Unreachable { .. }));
        let told: Vec<&str> = told.map(|f| texts.sources.get(f.id).name.as_str()).collect();
        assert!(
            told.contains(&"content/pages/quill.md") && told.contains(&"content/media/quill.toml"),
            "{told:?}"
        );
    }
}
