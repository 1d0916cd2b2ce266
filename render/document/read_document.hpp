#pragma once
#include "document/document.hpp"
#include "input/byte_source.hpp"

#include <concepts>
#include <filesystem>
#include <functional>
#include <string>
#include <utility>

namespace wayfolio::document {

/// How a document's side files (trace, logo) are found. They lie in the document's own folder; names that leave it are faults.
class SideFileReader {
public:
    using Whole = std::function<std::string(const std::string& name)>;
    using Source = std::function<input::ByteSource(const std::string& name)>;

    SideFileReader() = default;
    /// @param whole gives all bytes of a side file, or throws input::InputMissing
    template <std::convertible_to<Whole> Given>
        requires(!std::same_as<Given, SideFileReader>)
    SideFileReader(Given whole) : whole_(std::move(whole)) {}  // NOLINT(google-explicit-constructor): a lambda is one
    /// @param source opens a side file that may be too large to be held
    SideFileReader(Whole whole, Source source) : whole_(std::move(whole)), source_(std::move(source)) {}

    explicit operator bool() const { return static_cast<bool>(whole_); }
    [[nodiscard]] std::string operator()(const std::string& name) const { return whole_(name); }
    [[nodiscard]] input::ByteSource source(const std::string& name) const {
        return source_ ? source_(name) : input::source_of(whole_(name));
    }

private:
    Whole whole_;
    Source source_;
};

/// Reads a result document. May be called on several threads at once; nothing is kept between calls.
/// @param bytes the JSON text, UTF-8 (a byte-order mark is passed over)
/// @param file the name used in messages
/// @param read_side_file gives the bytes of a side file, or throws input::InputMissing
/// @throws input::InputRejected with every fault found (at most InputRejected::cap)
Document read_document(std::string bytes, std::string file, const SideFileReader& read_side_file);

/// Reads a result document from a path; "-" is standard input (side files then lie in the current folder).
/// @throws input::InputMissing when the file cannot be opened, input::InputRejected when it is faulty
Document read_document(const std::filesystem::path& path);

/// The JSON Schema (draft-07 vocabulary) of the result document, as text.
std::string_view document_schema();

}  // namespace wayfolio::document
