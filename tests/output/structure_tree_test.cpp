#include "output/memory_stream.hpp"
#include "output/qpdf.hpp"
#include "output/structure_tree.hpp"

#include <cairo-pdf.h>
#include <catch2/catch.hpp>

using namespace wayfolio::output;

namespace {

/// A page with a paragraph and a private part in a document, drawn by Cairo alone.
std::string drawn() {
    std::string bytes;
    cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(append_to_string, &bytes, 100, 100);
    cairo_t* cairo = cairo_create(surface);
    cairo_tag_begin(cairo, "Document", "");
    for (const char* tag : {"P", "Private"}) {
        cairo_tag_begin(cairo, tag, "");
        cairo_rectangle(cairo, 10, 10, 20, 20);
        cairo_fill(cairo);
        cairo_tag_end(cairo, tag);
    }
    cairo_tag_end(cairo, "Document");
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
    return bytes;
}

ObjectTexts finish(const std::vector<TagRecord>& records) {
    const std::string bytes = drawn();
    QPDF file;
    file.processMemoryFile("drawn", bytes.data(), bytes.size());
    return structure_tree(file, bytes, records);
}

const TagRecord document{.type = "Document", .leaf = false};

TagRecord leaf(const char* type) { return {.type = type, .parent = 0}; }

}  // namespace

TEST_CASE("a structure tree is made only of what the pages hold") {
    CHECK_NOTHROW(finish({document, leaf("P"), leaf("Private")}));
    CHECK_THROWS_WITH(finish({document, leaf("P")}), Catch::Contains("2 structure elements were drawn, 3 are in the file"));
    CHECK_THROWS_WITH(finish({document, leaf("P"), {.type = "Link", .parent = 0}}), Catch::Contains("page 1 has fewer links than were drawn"));
}
