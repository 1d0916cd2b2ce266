#pragma once
#include "archive/record/record.hpp"
#include "archive/verify/verify.hpp"
#include "document/read_document.hpp"
#include "support/run.hpp"
#include "support/text_helpers.hpp"

#include <algorithm>

/// Documents of the source tree, drawn and kept.
namespace wayfolio::testing {

using support::file_bytes;
using support::run;
using support::TemporaryFolder;
namespace fs = std::filesystem;

inline const fs::path source = WAYFOLIO_SOURCE_FOLDER;
inline const fs::path smallest = source / "sample-results/smallest.json", traced = source / "tests/golden/awkward/trace-beside.json",
                      internal = source / "tests/golden/awkward/draft-with-internal-remarks.json";

/// A document with all that a drawing refers to.
struct Drawn {
    document::Document document;
    evaluate::Evaluation evaluation;
    layouts::Layout layout;

    explicit Drawn(document::Document read, const std::string& layout_name = "summary", const std::string& paper = "")
        : document(std::move(read)), evaluation(evaluate::evaluate(document)), layout(layouts::read_layout(layout_name, paper)) {}
    explicit Drawn(const fs::path& path, const std::string& layout_name = "summary", const std::string& paper = "")
        : Drawn(document::read_document(path), layout_name, paper) {}
    [[nodiscard]] produce::Drawing drawing() const { return {document, evaluation, layout, shaper()}; }
    [[nodiscard]] std::string pdf() const { return produce::report_pdf(drawing()); }
};

inline document::Document document_of(const std::string& text) {
    return document::read_document(text, "job.json",
                                   [](const std::string& name) -> std::string { throw input::InputMissing(name, "is not there"); });
}

/// `text` with one part replaced, which must be there.
inline std::string with(std::string text, const std::string& part, const std::string& other) {
    const std::size_t at = text.find(part);
    if (at == std::string::npos) throw std::logic_error("no " + part);
    return text.replace(at, part.size(), other);
}

inline fs::path record_in(const TemporaryFolder& folder, const fs::path& document = smallest) {
    const fs::path record = folder.path() / "record";
    archive::write_record(Drawn(document).drawing(), record, [](std::string_view) {});
    return record;
}

inline archive::Verification verdict_of(const std::string& pdf, const std::string& against = "") {
    return archive::verify_pdf(pdf, "job.pdf", {shaper(), against});
}
inline archive::Verification verdict_of(const fs::path& record) { return archive::verify_record(record, {shaper(), ""}); }

/// The details of all checks that fail, one a line.
inline std::string faults(const archive::Verification& verdict) {
    std::string text;
    for (const archive::Check& check : verdict.checks)
        if (check.holds == archive::Holds::No)
            for (const std::string& detail : check.details) text += detail + "\n";
    return text;
}

}  // namespace wayfolio::testing
