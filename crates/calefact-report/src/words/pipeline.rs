//! Words for facts about a pipeline.

use super::suggestion::suggestion;
use super::{Message, Wording, list};
use calefact_analysis::fact::PipelineFact;
use calefact_data::ApparatusKind;
use std::path::Path;

/// The message on a fact.
pub(super) fn message(w: &Wording<'_>, fact: &PipelineFact) -> Message {
    match fact {
        PipelineFact::NotAPipeline { path } => {
            let folder = path.with_extension("");
            let command = new_from(&folder, path);
            Message::new("not a pipeline file but a table").hint(format!("make a dataset of it with `{command}`"))
        }
        PipelineFact::NothingToRun { folder, tables } => nothing_to_run(folder, *tables),
        PipelineFact::SeveralPipelines { files } => {
            let files: Vec<String> = files.iter().map(|file| typed(file)).collect();
            Message::new(format!("the folder holds {} pipeline files: {}", files.len(), files.join(", ")))
                .hint(format!("name one of them, such as `calefact run {}`", files[0]))
        }
        PipelineFact::FolderTaken { folder, by } => {
            let folder = w.quoted(&folder.display().to_string());
            Message::new(format!("{folder} holds the results of {}, a pipeline of the same name", w.quoted(by)))
                .action("nothing written")
                .hint("give one of the two another `name`, choose a folder with `--out`, or delete the folder")
        }
        PipelineFact::NoDataset { folder, near, tables } => {
            let hint = match near {
                Some(near) => format!("did you mean `{near}`?"),
                None if *tables => format!("make a dataset of it with `{}`", new_from(folder, folder)),
                None => "`datasets` are relative to the folder of the pipeline file".into(),
            };
            Message::new(format!("{} is not a dataset: it has no dataset.toml", w.quoted(&folder.display().to_string())))
                .action("dataset left out")
                .hint(hint)
        }
        PipelineFact::ApparatusConflict { kind, id, dataset } => {
            let (kind, dataset) = (kind_word(*kind), dataset.display());
            Message::new(format!("{kind} `{id}` is described in {dataset} and differently in an earlier dataset"))
                .action("each trial is reduced by its own dataset's, and the page shows the earlier one")
                .hint("give the two different ids, or make the entries equal")
        }
        PipelineFact::DuplicateTrial { trial } => {
            Message::new(format!("trial `{trial}` is in two datasets of the pipeline"))
                .action("the later one left out")
                .hint("give each trial of a pipeline its own id")
        }
        PipelineFact::UnknownColumn { key, column, known } => {
            Message::new(format!("`{key}` of a comparison names {}, a column that no register has", w.column(column)))
                .hint(suggestion(column, known))
        }
        PipelineFact::UnknownLevel { column, level, known } => {
            let column = column.replace('_', " ");
            let text = format!("`only` of a comparison asks for {column} `{level}`, which no trial has");
            Message::new(text).hint(suggestion(level, known))
        }
        PipelineFact::SeveralCurrencies(currencies) => {
            Message::new(format!("fuels are priced in {}, and costs in different currencies cannot be compared", list(currencies)))
                .action("no cost is given")
                .hint("state the `price` of all fuels in one `currency`")
        }
        PipelineFact::NoStove => Message::new("no burn names its stove, so stoves are not compared").hint(
            "fill the column `stove`, name its header under [register] `columns`, or write what to compare under [[comparison]]",
        ),
    }
}

fn nothing_to_run(folder: &Path, tables: bool) -> Message {
    let hint = if tables {
        format!("make a dataset of its tables with `{}`", new_from(folder, folder))
    } else {
        "name a pipeline file or the folder of a dataset, or begin one with `calefact new mine`".to_owned()
    };
    Message::new("neither a pipeline file nor dataset.toml is in the folder").hint(hint)
}

/// The command that makes a dataset of files.
fn new_from(folder: &Path, from: &Path) -> String {
    format!("calefact new {} --from {}", typed(folder), typed(from))
}

/// A path as it is typed on a command line.
pub(super) fn typed(path: &Path) -> String {
    let text = path.display().to_string();
    let is_plain = |c: char| c.is_alphanumeric() || "/._-\\:+,".contains(c);
    match text.as_str() {
        "" => ".".to_owned(),
        text if text.chars().all(is_plain) => text.to_owned(),
        text => format!("\"{text}\""),
    }
}

const fn kind_word(kind: ApparatusKind) -> &'static str {
    match kind {
        ApparatusKind::Stove => "stove",
        ApparatusKind::Fuel => "fuel",
        ApparatusKind::Exchanger => "exchanger",
        ApparatusKind::Vessel => "vessel",
        ApparatusKind::Instrument => "instrument",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(fact: &PipelineFact, text: &str, action: Option<&str>, hint: &str) {
        let message = message(&Wording::plain(), fact);
        assert_eq!(
            (message.text.as_str(), message.action.as_deref(), message.hint.as_deref()),
            (text, action, Some(hint))
        );
    }

    #[test]
    fn what_is_not_a_pipeline_names_the_command_that_helps() {
        check(
            &PipelineFact::NotAPipeline { path: "raw logs/b 3.csv".into() },
            "not a pipeline file but a table",
            None,
            "make a dataset of it with `calefact new \"raw logs/b 3\" --from \"raw logs/b 3.csv\"`",
        );
        let text = "neither a pipeline file nor dataset.toml is in the folder";
        let nothing = |folder: &str, tables| PipelineFact::NothingToRun { folder: folder.into(), tables };
        check(&nothing("", true), text, None, "make a dataset of its tables with `calefact new . --from .`");
        let begin = "name a pipeline file or the folder of a dataset, or begin one with `calefact new mine`";
        check(&nothing("x", false), text, None, begin);
        check(
            &PipelineFact::SeveralPipelines { files: vec!["a.toml".into(), "b.toml".into()] },
            "the folder holds 2 pipeline files: a.toml, b.toml",
            None,
            "name one of them, such as `calefact run a.toml`",
        );
        check(
            &PipelineFact::FolderTaken { folder: "reports/mine".into(), by: "other.toml".into() },
            "`reports/mine` holds the results of `other.toml`, a pipeline of the same name",
            Some("nothing written"),
            "give one of the two another `name`, choose a folder with `--out`, or delete the folder",
        );
    }

    #[test]
    fn datasets_together() {
        let missing = |near: Option<&str>| PipelineFact::NoDataset {
            folder: "d/x".into(),
            near: near.map(Into::into),
            tables: false,
        };
        let (text, action) = ("`d/x` is not a dataset: it has no dataset.toml", Some("dataset left out"));
        check(&missing(Some("y")), text, action, "did you mean `y`?");
        check(&missing(None), text, action, "`datasets` are relative to the folder of the pipeline file");
        let raw = PipelineFact::NoDataset { folder: "d/x".into(), near: None, tables: true };
        check(&raw, text, action, "make a dataset of it with `calefact new d/x --from d/x`");
        check(
            &PipelineFact::ApparatusConflict { kind: ApparatusKind::Stove, id: "box".into(), dataset: "d/b".into() },
            "stove `box` is described in d/b and differently in an earlier dataset",
            Some("each trial is reduced by its own dataset's, and the page shows the earlier one"),
            "give the two different ids, or make the entries equal",
        );
        check(
            &PipelineFact::DuplicateTrial { trial: "b1".into() },
            "trial `b1` is in two datasets of the pipeline",
            Some("the later one left out"),
            "give each trial of a pipeline its own id",
        );
    }

    #[test]
    fn comparisons() {
        let known = || vec!["stove".to_owned(), "fuel".to_owned()];
        check(
            &PipelineFact::UnknownColumn { key: "factor", column: "stoev".into(), known: known() },
            "`factor` of a comparison names `stoev`, a column that no register has",
            None,
            "did you mean `stove`?",
        );
        check(
            &PipelineFact::UnknownLevel { column: "damper".into(), level: "shut".into(), known: known() },
            "`only` of a comparison asks for damper `shut`, which no trial has",
            None,
            "write one of `stove`, `fuel`",
        );
        let hint = "fill the column `stove`, name its header under [register] `columns`, or write what to compare under [[comparison]]";
        check(&PipelineFact::NoStove, "no burn names its stove, so stoves are not compared", None, hint);
    }
}
