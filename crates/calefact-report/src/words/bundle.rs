//! Bundles in words: what is wrong with one, and how far a rerun agrees with what was sealed.

use super::{Message, Wording, plural};
use calefact_analysis::fact::{BundleFact, BundleLimit, NameFault};

/// The message on a fact.
pub(super) fn message(w: &Wording<'_>, fact: &BundleFact) -> Message {
    match fact {
        BundleFact::NotABundle => Message::new("this is no bundle: it holds no manifest-sha256.txt")
            .hint("name a folder or archive that `calefact seal` wrote"),
        BundleFact::Unreadable { reason } => Message::new(format!("the bundle cannot be read: {reason}")),
        BundleFact::TooLarge(limit) => {
            Message::new(too_large(*limit)).hint("do not unpack it; ask its authors for another copy")
        }
        BundleFact::Unsafe { name, fault } => {
            Message::new(unsafe_entry(w, name, fault)).hint("do not unpack it; ask its authors for another copy")
        }
        BundleFact::ChecksumLine { line } => Message::new(format!(
            "line {line} of manifest-sha256.txt is not a checksum and a path, in the order of the paths"
        )),
        BundleFact::Changed { name } => Message::new(format!("{} is not as it was sealed", w.quoted(name))),
        BundleFact::Missing { name } => Message::new(format!("{} is missing", w.quoted(name))),
        BundleFact::Added { name } => Message::new(format!("{} was not sealed: it was added later", w.quoted(name))),
        BundleFact::ReadsOutside { path } => Message::new(format!(
            "the pipeline of the bundle names {}, which is not in the bundle",
            w.quoted(&path.display().to_string())
        )),
        BundleFact::NoPipeline => Message::new("the bundle has no pipeline.toml that can be used"),
        BundleFact::Refused { faults, first } => refused(w, *faults, first),
    }
}

fn refused(w: &Wording<'_>, faults: usize, first: &BundleFact) -> Message {
    let more = if faults > 1 { format!(" (and {})", plural(faults - 1, "more fault")) } else { String::new() };
    Message::new(format!("{}{more}", message(w, first).text))
        .action("dataset left out")
        .hint("`calefact verify` with the path of the bundle lists every fault; ask its authors for another copy")
}

fn too_large(limit: BundleLimit) -> String {
    match limit {
        BundleLimit::Files(most) => format!("the bundle has more than {most} files"),
        BundleLimit::Bytes(most) => format!("the files of the bundle have more than {} GiB", most >> 30),
        BundleLimit::Ratio(most) => {
            format!("the files of the bundle are {most} times as large as the archive, or more")
        }
        BundleLimit::Stated => "a file of the bundle is larger than the archive states".into(),
    }
}

fn unsafe_entry(w: &Wording<'_>, name: &str, fault: &NameFault) -> String {
    if name.is_empty() && *fault == NameFault::Twice {
        return "two entries of the bundle have one name".into();
    }
    format!("the entry {} {}", w.quoted(name), name_fault(w, fault))
}

/// What is wrong with a name, behind that name.
pub fn name_fault(w: &Wording<'_>, fault: &NameFault) -> String {
    match fault {
        NameFault::Path => {
            "has a path that is absolute, leads out of the bundle, or has a backslash or a drive in it".into()
        }
        NameFault::Character => "has a character in its name that some systems do not allow".into(),
        NameFault::Reserved => {
            "has a name that some systems keep for a device, or that ends in a dot or a blank".into()
        }
        NameFault::Long => "has a longer path than systems allow".into(),
        NameFault::Twice => "is there twice".into(),
        NameFault::Case(other) => format!("has the name of {} but for capitals or accents", w.quoted(other)),
        NameFault::Folder => "has the name of a folder of another entry".into(),
        NameFault::NotAFile => "is a link, a pipe or a device".into(),
        NameFault::Encrypted => "is encrypted".into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(fact: &BundleFact) -> String {
        message(&Wording::plain(), fact).text
    }

    #[test]
    fn entries_are_named_with_their_fault() {
        let fact = |name: &str, fault| BundleFact::Unsafe { name: name.into(), fault };
        let wanted = "the entry `../a` has a path that is absolute, leads out of the bundle, or has a backslash or a drive in it";
        assert_eq!(text(&fact("../a", NameFault::Path)), wanted);
        assert_eq!(text(&fact("", NameFault::Twice)), "two entries of the bundle have one name");
        let case = NameFault::Case("a".into());
        assert_eq!(text(&fact("A", case)), "the entry `A` has the name of `a` but for capitals or accents");
    }

    #[test]
    fn a_refused_bundle_tells_its_first_fault() {
        let first = Box::new(BundleFact::Changed { name: "pipeline.toml".into() });
        let refused = |faults| text(&BundleFact::Refused { faults, first: first.clone() });
        assert_eq!(refused(1), "`pipeline.toml` is not as it was sealed");
        assert_eq!(refused(3), "`pipeline.toml` is not as it was sealed (and 2 more faults)");
        assert_eq!(
            text(&BundleFact::TooLarge(BundleLimit::Bytes(4 << 30))),
            "the files of the bundle have more than 4 GiB"
        );
    }
}
