#include "output/pdf/write_pdf.hpp"

#include "output/pdf/qpdf.hpp"

#include <catch2/catch.hpp>
#include <zlib.h>

using namespace wayfolio;
using namespace wayfolio::output;

namespace {

/// A catalog that leads to a stream and to an object of the given text.
struct Sample {
    explicit Sample(const std::string& text) : objects(1) {
        said = objects.add(text);
        stream = objects.add_stream("", {std::string(1000, 'a'), /*pack=*/true});
        root = objects.add("<</Type /Catalog /Pages <<>> /Said " + reference(said) + " /Stream " + reference(stream) + ">>");
        info = objects.add("<<>>");
    }
    [[nodiscard]] std::string written() const { return write_pdf(objects, {root, info}, text::Threads::Several); }

    Objects objects;
    int said, stream, root, info;
};

}  // namespace

TEST_CASE("a written PDF holds its objects under their numbers, streams packed, and nothing else") {
    const Sample sample("<</Words (by a text)>>");
    const std::string bytes = sample.written();
    QPDF read;
    read.processMemoryFile("written", bytes.data(), bytes.size());
    CHECK(read.getObject(sample.said, 0).getKey("/Words").getStringValue() == "by a text");
    CHECK(text_of(read.getRoot().getKey("/Stream").getStreamData()) == std::string(1000, 'a'));
    CHECK(bytes.size() < 1000);  // packed
    CHECK(read.getAllObjects().size() == 6);  // an object stream and the cross-reference stream beside them
    CHECK(read.getWarnings().empty());
}

TEST_CASE("the ID of a written PDF depends on its content only") {
    const auto id = [](const std::string& said) {
        const std::string bytes = Sample(said).written();
        QPDF read;
        read.processMemoryFile("written", bytes.data(), bytes.size());
        return read.getTrailer().getKey("/ID").getArrayItem(0).getStringValue();
    };
    CHECK(id("1").size() == 16);
    CHECK(id("1") == id("1"));
    CHECK(id("1") != id("2"));
}

TEST_CASE("more objects than one object stream holds are all found again") {
    Sample sample("0");
    std::string list;
    for (int i = 0; i < 1000; ++i) list += " " + reference(sample.objects.add(std::to_string(i)));
    sample.objects.put(sample.said, "[" + list + "]");
    const std::string bytes = sample.written();
    QPDF read;
    read.processMemoryFile("written", bytes.data(), bytes.size());
    Handle found = read.getRoot().getKey("/Said");
    REQUIRE(found.getArrayNItems() == 1000);
    bool all = true;
    for (int i = 0; i < 1000; ++i) all = all && found.getArrayItem(i).getIntValue() == i;
    CHECK(all);
}

TEST_CASE("packing leaves alone what is not to be packed, and zlib unpacks the rest") {
    std::vector<Packed> parts;
    for (int i = 0; i < 20; ++i) parts.push_back({std::string(5000, static_cast<char>('a' + i)), i % 2 == 0});
    std::vector<Packed*> all;
    for (Packed& part : parts) all.push_back(&part);
    pack(all, text::Threads::Several);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        std::string whole(5000, '\0');
        uLongf length = whole.size();
        if (!parts[i].pack) whole = parts[i].bytes;
        else
            REQUIRE(uncompress(reinterpret_cast<Bytef*>(whole.data()), &length, reinterpret_cast<const Bytef*>(parts[i].bytes.data()),
                               parts[i].bytes.size()) == Z_OK);
        CHECK(whole == std::string(5000, static_cast<char>('a' + i)));
    }
    CHECK_NOTHROW(pack({}, text::Threads::Several));
}
