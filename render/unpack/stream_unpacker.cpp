#include "unpack/stream_unpacker.hpp"

#include <qpdf/Pipeline.hh>

#include <stdexcept>

namespace wayfolio::unpack {

namespace {

class UpTo : public Pipeline {
public:
    explicit UpTo(std::size_t most) : Pipeline("unpacked", nullptr), most_(most) {}
    void write(const unsigned char* data, std::size_t length) override {
        if (length > most_ - bytes.size()) {
            is_over = true;  // libqpdf makes a warning of what is thrown here
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

}  // namespace

std::string StreamUnpacker::unpacked(Handle stream) {
    UpTo pipeline(left_);
    const bool sound = stream.pipeStreamData(&pipeline, 0, qpdf_dl_generalized, /*suppress_warnings=*/true);
    if (pipeline.is_over)
        throw std::runtime_error("its streams unpack to more than " + std::to_string(most_) +
            " bytes, which is more than such a file may hold");
    if (!sound) throw std::runtime_error("object " + std::to_string(stream.getObjectID()) + ": a stream that cannot be unpacked");
    left_ -= pipeline.bytes.size();
    return std::move(pipeline.bytes);
}

std::string StreamUnpacker::content(Handle streams) {
    std::string all;
    for (Handle one : streams.isArray() ? streams.getArrayAsVector() : std::vector<Handle>{streams})
        if (one.isStream()) all += unpacked(one) + "\n";
    return all;
}

std::string packet_of(QPDF& file) {
    Handle packet = file.getRoot().getKey("/Metadata");
    return packet.isStream() ? StreamUnpacker(most_content(0)).unpacked(packet) : std::string();
}

void parse_content(const std::string& content, Handle::ParserCallbacks& callbacks) {
    QPDF scratch;  // a stream of its own: to the file it came from it would be one object more
    scratch.setSuppressWarnings(/*val=*/true);
    scratch.emptyPDF();
    Handle::parseContentStream(Handle::newStream(&scratch, content), &callbacks);
}

}  // namespace wayfolio::unpack
