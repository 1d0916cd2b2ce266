#include "archive/record/making.hpp"

#include "output/pdf/qpdf.hpp"
#include "input/read_file.hpp"

namespace wayfolio::archive {
namespace {

/// Takes a stream's bytes, but no more than an input may have: a few bytes can unpack to a great many.
class Limited : public Pipeline {
public:
    Limited() : Pipeline("carried file", nullptr) {}
    void write(const unsigned char* data, std::size_t length) override {
        if (bytes.size() + length > input::largest_file) throw std::runtime_error("a carried file is larger than an input may be");
        bytes.append(reinterpret_cast<const char*>(data), length);
    }
    void finish() override {}
    std::string bytes;
};

[[noreturn]] void reject_pdf(const std::string& name, const std::string& found, const std::string& hint = {}) {
    throw input::InputRejected({{name, {}, found, "a sound PDF that this program made", hint}});
}

}  // namespace

Files carried_files(const std::string& pdf, const std::string& name) {
    if (!pdf.starts_with("%PDF-")) reject_pdf(name, "no PDF", "name the PDF of a report or figure, or the folder of a record");
    try {
        QPDF file;
        file.setSuppressWarnings(/*val=*/true);
        file.processMemoryFile(name.c_str(), pdf.data(), pdf.size());
        Files files;
        QPDFEmbeddedFileDocumentHelper embedded(file);
        for (const auto& [key, specification] : embedded.getEmbeddedFiles()) {
            Limited bytes;
            if (!specification->getEmbeddedFileStream().pipeStreamData(&bytes, 0, qpdf_dl_all))
                reject_pdf(name, "a carried file, " + key + ", that cannot be unpacked");
            files[key] = std::move(bytes.bytes);
        }
        return files;
    } catch (const std::runtime_error& error) {  // QPDFExc among them
        reject_pdf(name, error.what());
    }
}

}  // namespace wayfolio::archive
