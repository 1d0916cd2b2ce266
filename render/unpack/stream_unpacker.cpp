#include "unpack/stream_unpacker.hpp"

#include <qpdf/Buffer.hh>
#include <qpdf/Pipeline.hh>

#include <algorithm>
#include <stdexcept>

namespace wayfolio::unpack {

namespace {

class UpTo : public Pipeline {
public:
    explicit UpTo(std::size_t most) : Pipeline("unpacked", nullptr), most_(most) {}
    void write(const unsigned char* data, std::size_t length) override {
        if (length > most_ - bytes.size()) {
            is_over = true;
            throw std::runtime_error("too many bytes");
        }
        bytes.append(reinterpret_cast<const char*>(data), length);
    }
    void finish() override {}
    std::string bytes;
    bool is_over = false;

private:
    std::size_t most_;
};

/// The parameters of one filter, for a file of their own; libqpdf makes room for two rows of them, however long they are said to be.
Handle own_parameters(Handle given) {
    constexpr long long longest_row = 1 << 24, most_colours = 32;
    if (!given.isDictionary()) return Handle::newNull();
    Handle own = Handle::newDictionary();
    for (const char* key : {"/Predictor", "/Columns", "/Colors", "/BitsPerComponent", "/EarlyChange"}) {
        Handle number = given.getKey(key);
        if (number.isInteger()) own.replaceKey(key, Handle::newInteger(number.getIntValue()));
    }
    for (const auto& [key, most] : {std::pair{"/Columns", longest_row / most_colours}, {"/Colors", most_colours}})
        if (own.hasKey(key) && own.getKey(key).getIntValue() > most)
            throw TooMuch(std::string("rows of a stream are longer than such a file may hold (") + key + ")");
    return own;
}

std::vector<Handle> each(Handle one_or_more) {
    return one_or_more.isArray() ? one_or_more.getArrayAsVector() : std::vector<Handle>{one_or_more};
}

}  // namespace

void StreamUnpacker::charge(std::size_t bytes) {
    if (bytes > left_)
        throw TooMuch("its streams unpack to more than " + std::to_string(most_) + " bytes, which is more than such a file may hold");
    left_ -= bytes;
}

std::string StreamUnpacker::through(std::string_view packed, Handle filter, Handle parameters) {
    QPDF scratch;
    scratch.setSuppressWarnings(/*val=*/true);
    scratch.emptyPDF();
    // libqpdf only reads it.
    auto* bytes = reinterpret_cast<unsigned char*>(const_cast<char*>(packed.data()));
    Handle stream = Handle::newStream(&scratch, std::make_shared<Buffer>(bytes, packed.size()));
    stream.getDict().replaceKey("/Filter", Handle::newName(filter.getName()));
    stream.getDict().replaceKey("/DecodeParms", own_parameters(std::move(parameters)));
    UpTo pipeline(left_);
    bool sound = false;
    try {
        sound = stream.pipeStreamData(&pipeline, 0, qpdf_dl_specialized, /*suppress_warnings=*/true);
    } catch (const std::runtime_error&) {  // damaged, or what the pipeline threw
    }
    charge(pipeline.is_over ? most_ + 1 : pipeline.bytes.size());
    if (!sound) throw std::runtime_error("a stream that cannot be unpacked");
    return std::move(pipeline.bytes);
}

std::string StreamUnpacker::unpacked(std::string_view packed, Handle filters, Handle parameters) {
    if (filters.isNull() || (filters.isArray() && filters.getArrayNItems() == 0)) {
        charge(packed.size());
        return std::string(packed);
    }
    std::string bytes;
    bool is_first = true;
    const std::vector<Handle> parts = each(std::move(parameters));
    std::size_t place = 0;
    // One after the other: a stream that was packed twice may unpack to any size on the way to a few bytes.
    for (Handle filter : each(std::move(filters))) {
        if (!filter.isName()) throw std::runtime_error("a stream that cannot be unpacked");
        bytes = through(is_first ? packed : std::string_view(bytes), filter, place < parts.size() ? parts[place] : Handle::newNull());
        is_first = false;
        ++place;
    }
    return bytes;
}

std::string StreamUnpacker::unpacked(Handle stream) {
    try {
        const std::shared_ptr<Buffer> raw = stream.getRawStreamData();
        const std::string_view packed(reinterpret_cast<const char*>(raw->getBuffer()), raw->getSize());
        const std::size_t before = left_;
        std::string bytes = unpacked(packed, stream.getDict().getKey("/Filter"), stream.getDict().getKey("/DecodeParms"));
        // What unpacks to little is read as often as it is named, too.
        charge(packed.size() - std::min(packed.size(), before - left_));
        return bytes;
    } catch (const TooMuch&) {
        throw;
    } catch (const std::runtime_error& error) {
        throw std::runtime_error("object " + std::to_string(stream.getObjectID()) + ": " + error.what());
    }
}

std::string StreamUnpacker::content(Handle streams) {
    std::string all;
    for (Handle one : each(std::move(streams)))
        if (one.isStream()) all += unpacked(one) + "\n";
    return all;
}

std::string packet_of(QPDF& file) {
    Handle packet = file.getRoot().getKey("/Metadata");
    return packet.isStream() ? StreamUnpacker(most_content(0)).unpacked(packet) : std::string();
}

void parse_content(const std::string& content, Handle::ParserCallbacks& callbacks) {
    require_readable_content(content);
    QPDF scratch;  // a stream of its own: to the file it came from it would be one object more
    scratch.setSuppressWarnings(/*val=*/true);
    scratch.emptyPDF();
    Handle::parseContentStream(Handle::newStream(&scratch, content), &callbacks);
}

}  // namespace wayfolio::unpack
