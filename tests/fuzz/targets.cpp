#include "fuzz/targets.hpp"

#define POINTERHOLDER_TRANSITION 4  // libqpdf 11 asks its users to say that they have left its old pointer type behind
#include "archive/record/record.hpp"
#include "archive/verify/verify.hpp"
#include "conformance/conformance.hpp"
#include "document/read_document.hpp"
#include "evaluate/review/site/findings.hpp"
#include "evaluate/written/evaluation_json.hpp"
#include "gather/gather.hpp"
#include "input/read_file.hpp"
#include "produce/produce.hpp"
#include "support/run.hpp"
#include "support/text_helpers.hpp"

#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>

#include <filesystem>
#include <stdexcept>

namespace wayfolio::fuzz {
namespace {

namespace fs = std::filesystem;
const fs::path source = WAYFOLIO_SOURCE_FOLDER;

/// Faults that are told are what is wanted.
template <typename Call>
void told(const Call& call) {
    try {
        call();
    } catch (const input::InputRejected&) {
    } catch (const input::InputMissing&) {
    } catch (const text::GlyphMissing&) {
    }
}

std::vector<std::string> contents_of(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(folder))
        if (entry.is_regular_file()) files.push_back(entry.path());
    std::ranges::sort(files);
    std::vector<std::string> contents;
    for (const fs::path& file : files) contents.push_back(input::read_file(file));
    return contents;
}

document::Document document_of(std::string bytes) {
    return document::read_document(std::move(bytes), "fuzzed.json", [](const std::string& name) -> std::string {
        throw input::InputMissing(name, "side files are not part of this");
    });
}

const document::Document& smallest() {
    static const document::Document one = document_of(input::read_file(source / "sample-results/smallest.json"));
    return one;
}

std::vector<std::string> document_seeds() {
    auto seeds = contents_of(source / "tests/document/good");
    for (const char* name : {"smallest", "rotary-axis", "two-axes", "nist-sirstv"})
        seeds.push_back(input::read_file(source / "sample-results" / (std::string(name) + ".json")));
    return seeds;
}

void run_document(std::string_view bytes) {
    told([&] {
        const document::Document document = document_of(std::string(bytes));
        const evaluate::Evaluation evaluation = evaluate::evaluate(document);
        (void)evaluate::evaluation_json(document, evaluation);
        (void)evaluate::findings_json(evaluate::findings(document, evaluation));
        const auto layout = layouts::read_layout("report", "A4");
        (void)produce::report_pdf({document, evaluation, layout, testing::shaper()});
    });
}

std::vector<std::string> layout_seeds() { return contents_of(source / "layouts"); }

void run_layout(std::string_view bytes) {
    told([&] {
        const auto layout = layouts::read_layout_bytes(std::string(bytes), "fuzzed.json", "");
        static const evaluate::Evaluation evaluation = evaluate::evaluate(smallest());
        (void)produce::report_pdf({smallest(), evaluation, layout, testing::shaper()});
    });
}

std::string smallest_pdf() {
    const evaluate::Evaluation evaluation = evaluate::evaluate(smallest());
    const auto layout = layouts::read_layout("summary", "A4");
    return produce::report_pdf({smallest(), evaluation, layout, testing::shaper()});
}

/// The same file with its streams unpacked, so that a changed byte changes what the file says and not only its packing.
std::string unpacked(const std::string& pdf) {
    QPDF file;
    file.processMemoryFile("seed", pdf.data(), pdf.size());
    QPDFWriter writer(file);
    writer.setQDFMode(true);
    writer.setStaticID(true);
    writer.setOutputMemory();
    writer.write();
    const auto bytes = writer.getBufferSharedPointer();
    return {reinterpret_cast<const char*>(bytes->getBuffer()), bytes->getSize()};
}

std::vector<std::string> pdf_seeds() {
    const std::string pdf = smallest_pdf();
    return {pdf, unpacked(pdf)};
}

void run_pdf(std::string_view bytes) {
    const std::string pdf(bytes);
    told([&] { (void)conformance::faults_of(pdf); });
    told([&] { (void)archive::verify_pdf(pdf, "fuzzed.pdf", {testing::shaper(), {}}); });
}

/// A sound record, in which one file at a time is another's.
struct Kept {
    support::TemporaryFolder folder;
    fs::path record = folder.path() / "record";
    std::vector<fs::path> files;

    Kept() {
        const evaluate::Evaluation evaluation = evaluate::evaluate(smallest());
        const auto layout = layouts::read_layout("summary", "A4");
        (void)archive::write_record({smallest(), evaluation, layout, testing::shaper()}, record, [](std::string_view) {});
        for (const auto& entry : fs::recursive_directory_iterator(record))
            if (entry.is_regular_file()) files.push_back(entry.path());
        std::ranges::sort(files);
    }
};

Kept& kept() {
    static Kept one;
    return one;
}

/// The first byte says which file, the others are its bytes.
std::vector<std::string> record_seeds() {
    std::vector<std::string> seeds;
    for (std::size_t i = 0; i < kept().files.size(); ++i)
        if (fs::file_size(kept().files[i]) < 100'000) seeds.push_back(static_cast<char>(i) + input::read_file(kept().files[i]));
    return seeds;
}

void write(const fs::path& file, std::string_view bytes) {
    std::ofstream stream(file, std::ios::binary);
    stream << bytes;
}

void run_record(std::string_view bytes) {
    if (bytes.empty()) return;
    const fs::path& file = kept().files[static_cast<unsigned char>(bytes[0]) % kept().files.size()];
    const std::string was = input::read_file(file);
    write(file, bytes.substr(1));
    try {
        told([] { (void)archive::verify_record(kept().record, {testing::shaper(), {}}); });
    } catch (...) {
        write(file, was);
        throw;
    }
    write(file, was);
}

/// A mapping, an export and facts, each ended by a NUL.
std::vector<std::string> gather_seeds() {
    const fs::path samples = source / "sample-results/exports";
    const std::string facts = input::read_file(samples / "facts/machine-D-0012.json");
    const std::string mapping = input::read_file(samples / "mapping.json");
    const auto seed = [](const std::string& by, const std::string& readings, const std::string& merged) {
        return by + '\0' + readings.substr(0, 2'000) + '\0' + merged;
    };
    std::vector<std::string> seeds;
    for (const std::string& one : contents_of(source / "tests/gather/mappings/good"))
        seeds.push_back(seed(one, "Target;Run;Dir;Dev\n0;1;+;0,1\n5;1;+;\n5;1;-;0.2\n", ""));
    // The sample's mapping without what names facts; its exports are found by one name.
    std::string any = mapping;
    if (const std::size_t named = any.find("\"facts\""); named != std::string::npos) any.replace(named, 7, "\"x-facts\"");
    for (const std::string& readings : contents_of(samples / "found")) seeds.push_back(seed(any, readings, facts));
    return seeds;
}

void run_gather(std::string_view bytes) {
    const auto take = [&] {
        const std::size_t end = std::min(bytes.find('\0'), bytes.size());
        const std::string_view part = bytes.substr(0, end);
        bytes.remove_prefix(std::min(end + 1, bytes.size()));
        return part;
    };
    const std::string_view mapping = take(), readings = take(), facts = take();
    const auto nothing = [](const std::string& name) -> std::string { throw input::InputMissing(name, "side files are not part of this"); };
    for (const char* name : {"log.csv", "x-eax.txt", "x-ebx.csv", "x-ecx.txt", "x-exx.csv", "x-eyx.csv", "x.csv"})
        told([&] {
            gather::GatherRequest request{.mapping = mapping, .mapping_file = "fuzzed.json", .read_side_file = nothing};
            request.exports.push_back(gather::export_of_bytes(name, readings));
            if (!facts.empty()) request.facts.push_back({"facts.json", "facts.json", std::string(facts), nothing});
            (void)gather::gather(request);
        });
}

constexpr Target every_target[] = {{"document", document_seeds, run_document},
                          {"layout", layout_seeds, run_layout},
                          {"pdf", pdf_seeds, run_pdf},
                          {"record", record_seeds, run_record},
                          {"gather", gather_seeds, run_gather}};

}  // namespace

std::span<const Target> targets() { return every_target; }

const Target& target_called(std::string_view name) {
    for (const Target& target : every_target)
        if (target.name == name) return target;
    throw std::invalid_argument("no target is called " + std::string(name));
}

std::vector<std::string> corpus_of(const Target& target) {
    const fs::path folder = source / "tests/fuzz/corpus" / target.name;
    return fs::exists(folder) ? contents_of(folder) : std::vector<std::string>();
}

}  // namespace wayfolio::fuzz
