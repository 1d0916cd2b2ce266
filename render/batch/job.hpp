#pragma once
#include <cstdint>
#include <filesystem>
#include <string>

/// Many documents drawn in one process, and again only where something is another.
namespace wayfolio::batch {

/// What becomes of a job.
struct Wanted {
    bool report = true;       ///< NAME.pdf
    bool evaluation = false;  ///< NAME.evaluation.json
};

enum class Source { Document, Record };

struct Job {
    std::string name;  ///< of its files; told apart from those of all other jobs
    std::filesystem::path from;
    Source source = Source::Document;
    std::string layout;  ///< a shipped one or a file; "": "report", and for a record the layout that was kept
    std::string paper;   ///< "": the layout's
    Wanted wanted;
    std::uint32_t line = 0;  ///< of the manifest; 0: it stands in none
};

}  // namespace wayfolio::batch
