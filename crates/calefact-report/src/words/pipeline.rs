//! Words for facts about a pipeline.

use super::suggestion::suggestion;
use super::{Message, Wording};
use calefact_analysis::fact::{OtherFile, PipelineFact};
use calefact_data::ApparatusKind;

/// The message on a fact.
pub(super) fn message(w: &Wording<'_>, fact: &PipelineFact) -> Message {
    match fact {
        PipelineFact::NotAPipeline { found } => not_a_pipeline(*found),
        PipelineFact::NoDataset { folder, near } => {
            let hint = match near {
                Some(near) => format!("did you mean `{near}`?"),
                None => "`datasets` are relative to the folder of the pipeline file".into(),
            };
            Message::new(format!("{} is not a dataset: it has no dataset.toml", w.quoted(&folder.display().to_string())))
                .action("dataset left out")
                .hint(hint)
        }
        PipelineFact::ApparatusConflict { kind, id, dataset } => {
            let (kind, dataset) = (kind_word(*kind), dataset.display());
            Message::new(format!("{kind} `{id}` is described in {dataset} and differently in an earlier dataset"))
                .action("the earlier description is used")
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
        PipelineFact::NoStove => Message::new("no burn names its stove, so stoves are not compared").hint(
            "fill the column `stove`, name its header under [register] `columns`, or write what to compare under [[comparison]]",
        ),
    }
}

fn not_a_pipeline(found: OtherFile) -> Message {
    let found = match found {
        OtherFile::Dataset => "the description of a dataset",
        OtherFile::Folder => "a folder",
        OtherFile::Table => "a table",
    };
    Message::new(format!("not a pipeline file but {found}")).hint(
        "write a TOML file with `name = \"mine\"` and `datasets = [\"folder of the dataset\"]`, and give its name",
    )
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
    fn files_of_another_kind() {
        let hint =
            "write a TOML file with `name = \"mine\"` and `datasets = [\"folder of the dataset\"]`, and give its name";
        let cases = [
            (OtherFile::Dataset, "not a pipeline file but the description of a dataset"),
            (OtherFile::Folder, "not a pipeline file but a folder"),
            (OtherFile::Table, "not a pipeline file but a table"),
        ];
        for (found, text) in cases {
            check(&PipelineFact::NotAPipeline { found }, text, None, hint);
        }
    }

    #[test]
    fn datasets_together() {
        let missing = |near: Option<&str>| PipelineFact::NoDataset { folder: "d/x".into(), near: near.map(Into::into) };
        let (text, action) = ("`d/x` is not a dataset: it has no dataset.toml", Some("dataset left out"));
        check(&missing(Some("y")), text, action, "did you mean `y`?");
        check(&missing(None), text, action, "`datasets` are relative to the folder of the pipeline file");
        check(
            &PipelineFact::ApparatusConflict { kind: ApparatusKind::Stove, id: "box".into(), dataset: "d/b".into() },
            "stove `box` is described in d/b and differently in an earlier dataset",
            Some("the earlier description is used"),
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
