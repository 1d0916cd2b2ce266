#pragma once
#include "archive/record/bag.hpp"

#include <filesystem>

/// A job record: a folder with one bag for each revision of the job, "revision-0" and up.
namespace wayfolio::archive {

/// Everything that a record of the drawing's document holds, by path under data/: inputs/ (what the report was made from, the
/// document as given), fonts/, evaluation.json, report.pdf, figures/, compensation/ (each table as CSV and JSON), ro-crate-metadata.json;
/// certificate-draft.xml where the layout asks for one.
/// @throws input::InputRejected for a side file whose name cannot stand in a record; as produce::report_pdf
Files payload_of(const produce::Drawing& drawing);

/// What a record holds besides: side files that are too large to be held, by path under data/.
LargeFiles large_payload_of(const produce::Drawing& drawing);

/// The RO-Crate metadata of a payload: what each file is, and in PROV terms what was made from what, by which program.
std::string crate_metadata(const produce::Drawing& drawing, const Files& payload, const std::string& fingerprint);

/// The number of a document's revision; 0 where it states none.
int revision_of(const document::Document& document);

struct Revision {
    int number;
    std::filesystem::path folder;
};

/// The finished revisions in a record, lowest first; empty where there is none.
std::vector<Revision> revisions_in(const std::filesystem::path& record);

/// The index that the catalogue writes into a folder of records, which may be a record itself.
inline constexpr std::string_view catalogue_index = "wayfolio-catalogue.sqlite";

/// Names of what is neither a revision, nor left by an interrupted run, nor written by the catalogue; in order.
std::vector<std::string> strangers_in(const std::filesystem::path& record);

/// Names of what interrupted runs left in a record's folder.
std::vector<std::string> unfinished_in(const std::filesystem::path& record);

/// All files of the bag that write_record() makes of the document where nothing is recorded yet.
Files first_revision(const produce::Drawing& drawing);

/// Writes the document's revision into the record at `folder`, and gives the folder of the revision.
/// A later revision must follow the newest one and name it, with the reason, in `job.replaces` (ISO/IEC 17025:2017, 7.8.8).
/// @throws input::InputRejected when it does not; files::OutputFailed when the revision is there already
std::filesystem::path write_record(const produce::Drawing& drawing, const std::filesystem::path& folder, const Step& step);

}  // namespace wayfolio::archive
