#include "output/pdf/write_pdf.hpp"

#include "output/pdf/packed.hpp"
#include "output/pdf/qpdf.hpp"

#include <catch2/catch.hpp>
#include <zlib.h>

using namespace wayfolio::output;

namespace {

/// A file with a stream, a number beside it, and an object that nothing leads to.
struct Sample {
    Sample() {
        file.emptyPDF();
        stream = file.newStream(std::string(1000, 'a'));
        file.getRoot().replaceKey("/Stream", stream);
        replaced = file.makeIndirectObject(Handle::newInteger(17));
        file.getRoot().replaceKey("/Replaced", replaced);
        file.makeIndirectObject(Handle::newString("lost"));
    }
    QPDF file;
    Handle stream = Handle::newNull(), replaced = Handle::newNull();
};

}  // namespace

TEST_CASE("a written PDF holds what its trailer leads to, texts in the place of objects, and nothing else") {
    Sample sample;
    const std::string bytes = write_pdf(sample.file, {{sample.replaced.getObjectID(), "<</Said (by a text)>>"}});
    QPDF read;
    read.processMemoryFile("written", bytes.data(), bytes.size());
    CHECK(read.getRoot().getKey("/Replaced").getKey("/Said").getStringValue() == "by a text");
    const auto unpacked = read.getRoot().getKey("/Stream").getStreamData();
    CHECK(std::string(reinterpret_cast<const char*>(unpacked->getBuffer()), unpacked->getSize()) == std::string(1000, 'a'));
    CHECK(bytes.size() < 1000);  // packed
    for (Handle object : read.getAllObjects()) CHECK_FALSE((object.isString() && object.getStringValue() == "lost"));
    CHECK(read.getWarnings().empty());
}

TEST_CASE("the ID of a written PDF depends on its content only") {
    const auto id = [](const std::string& said) {
        Sample sample;
        const std::string bytes = write_pdf(sample.file, {{sample.replaced.getObjectID(), said}});
        QPDF read;
        read.processMemoryFile("written", bytes.data(), bytes.size());
        return read.getTrailer().getKey("/ID").getArrayItem(0).getStringValue();
    };
    CHECK(id("1").size() == 16);
    CHECK(id("1") == id("1"));
    CHECK(id("1") != id("2"));
}

TEST_CASE("more objects than one object stream holds are all found again") {
    Sample sample;
    ObjectTexts texts;
    Handle list = Handle::newArray();
    for (int i = 0; i < 1000; ++i) {
        Handle object = sample.file.makeIndirectObject(Handle::newInteger(-1));
        list.appendItem(object);
        texts[object.getObjectID()] = std::to_string(i);
    }
    sample.file.getRoot().replaceKey("/List", list);
    const std::string bytes = write_pdf(sample.file, texts);
    QPDF read;
    read.processMemoryFile("written", bytes.data(), bytes.size());
    Handle found = read.getRoot().getKey("/List");
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
    pack(all);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        std::string whole(5000, '\0');
        uLongf length = whole.size();
        if (!parts[i].pack) whole = parts[i].bytes;
        else REQUIRE(uncompress(reinterpret_cast<Bytef*>(whole.data()), &length, reinterpret_cast<const Bytef*>(parts[i].bytes.data()), parts[i].bytes.size()) == Z_OK);
        CHECK(whole == std::string(5000, static_cast<char>('a' + i)));
    }
    CHECK_NOTHROW(pack({}));
}
