#pragma once
#include <string>
#include <vector>

namespace wayfolio::archive {

/// What a page shows.
struct PageContent {
    std::vector<std::string> texts;  ///< one for each text object, in the order of drawing; UTF-8
    std::string drawing;             ///< all other operators with their operands, and where texts stand
};

/// What a PDF says, freed from how its bytes are arranged.
struct PdfContent {
    std::vector<PageContent> pages;
    std::string structure;              ///< structure types with alternative texts, scopes and spans, in reading order
    std::string metadata;               ///< the XMP packet
    std::string bookmarks;              ///< their titles, one a line, in order, set in by their depth
    std::string attachments;            ///< names with how each belongs to the file (/AFRelationship), one a line
    std::vector<std::string> warnings;  ///< damage that the reader worked around
};

/// @throws input::InputRejected when the bytes cannot be read as a PDF
PdfContent content_of(const std::string& pdf, const std::string& name);

/// How two PDFs differ, each difference in one line; `kept` is the one that is examined, `fresh` what the data give.
struct PdfDifferences {
    std::vector<std::string> words;   ///< texts, alternative texts and metadata
    std::vector<std::string> drawing; ///< lines, places, pictures
    [[nodiscard]] bool none() const { return words.empty() && drawing.empty(); }
};
PdfDifferences differences(const PdfContent& kept, const PdfContent& fresh);

}  // namespace wayfolio::archive
