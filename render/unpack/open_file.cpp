#include "unpack/open_file.hpp"

#include <qpdf/Buffer.hh>
#include <qpdf/BufferInputSource.hh>
#include <qpdf/QPDFTokenizer.hh>

#include <algorithm>
#include <charconv>
#include <map>

namespace wayfolio::unpack {

namespace {

/// What the cross-reference streams may unpack to: what this program writes has an entry of seven bytes for 45 bytes of the file.
constexpr std::size_t most_entries(std::size_t file_bytes) { return 50'000 + file_bytes / 8; }
/// What the object streams may unpack to.
constexpr std::size_t most_object_text(std::size_t file_bytes) { return (std::size_t{4} << 20) + 16 * file_bytes; }

/// A stream that libqpdf may unpack by itself.
struct Packed {
    std::map<std::string, Handle> entries;
    std::size_t begin;  ///< of its bytes in the file
};

Handle entry(const Packed& stream, const char* key) {
    const auto found = stream.entries.find(key);
    return found == stream.entries.end() ? Handle::newNull() : found->second;
}

bool is_direct(Handle object) {
    if (object.isIndirect()) return false;
    if (object.isArray()) return std::ranges::all_of(object.getArrayAsVector(), is_direct);
    return !object.isDictionary() || std::ranges::all_of(object.getDictAsMap(), [](const auto& one) { return is_direct(one.second); });
}

/// Whatever libqpdf could take for a trailer, a cross-reference stream or an object stream, wherever it lies in the file.
class Survey {
public:
    explicit Survey(const std::string& bytes) : bytes_(bytes), text_(bytes_) {
        scratch_.setSuppressWarnings(/*val=*/true);
        scratch_.emptyPDF();
        // libqpdf only reads it.
        auto* data = reinterpret_cast<unsigned char*>(const_cast<char*>(bytes.data()));
        input_ = std::make_shared<BufferInputSource>("survey", new Buffer(data, bytes.size()), /*own_memory=*/true);
        tokenizer_.allowEOF();
    }
    void require_bounded() {
        read_behind("obj");
        read_behind("trailer");
        StreamUnpacker entries(17 * most_entries(bytes_.size())), texts(most_object_text(bytes_.size()));
        for (const Packed& stream : references_) check_entries(stream, entries);
        if (is_encrypted_ && !object_streams_.empty()) throw Encrypted("it is encrypted");
        for (const Packed& stream : object_streams_) check_objects(stream, texts);
    }

private:
    void read_behind(std::string_view word) {
        for (std::size_t at = text_.find(word); at != std::string_view::npos; at = text_.find(word, at + 1)) {
            const std::size_t end = at + word.size();
            if ((at == 0 || ends_word(text_[at - 1])) && (end >= text_.size() || ends_word(text_[end]))) read_object(end);
        }
    }
    void read_object(std::size_t at) {
        input_->seek(static_cast<qpdf_offset_t>(at), SEEK_SET);
        bool is_stream = false;
        std::map<std::string, Handle> entries;
        try {
            bool is_empty = false;
            Handle object = Handle::parse(input_, "object", tokenizer_, is_empty, nullptr, &scratch_);
            if (object.isDictionary()) {
                entries = object.getDictAsMap();
                is_stream = tokenizer_.readToken(input_, "object", /*allow_bad=*/true).isWord("stream");
            }
        } catch (const std::runtime_error&) {  // libqpdf finds the same when it comes to it
        }
        scratch_.getWarnings();  // which lets go of them
        const std::size_t end = static_cast<std::size_t>(input_->tell());
        constexpr std::size_t most_times = 8;
        read_ += end - at;
        if (read_ > most_times * bytes_.size()) throw TooMuch("its objects lie in each other");
        is_encrypted_ = is_encrypted_ || entries.contains("/Encrypt");
        if (is_stream) keep({std::move(entries), begin_of_stream(end)});
    }
    void keep(Packed stream) {
        Handle type = entry(stream, "/Type");
        const bool refers = type.isIndirect() || type.isNameAndEquals("/XRef");
        const bool holds = stream.entries.contains("/N") && stream.entries.contains("/First");
        if (!refers && !holds) return;
        for (const char* key : {"/Filter", "/DecodeParms", "/W", "/N", "/First"})
            if (!is_direct(entry(stream, key)))
                throw TooMuch(std::string("what ") + key + " of a stream of references or objects says stands in another object");
        if (refers) references_.push_back(stream);
        if (holds) object_streams_.push_back(std::move(stream));
    }
    [[nodiscard]] std::size_t begin_of_stream(std::size_t at) const {
        while (at < text_.size() && std::string_view(" \t\v\f").find(text_[at]) != std::string_view::npos) ++at;
        if (text_.substr(at).starts_with("\r\n")) return at + 2;
        return at < text_.size() && (text_[at] == '\n' || text_[at] == '\r') ? at + 1 : at;
    }
    /// Its bytes; those up to the end of the file where its length is not to be believed, for a filter ends by itself.
    std::string_view packed(const Packed& stream) {
        constexpr std::string_view end_word("endstream");
        constexpr int most_unsound = 200;
        const std::string_view rest = text_.substr(std::min(stream.begin, text_.size()));
        Handle length = entry(stream, "/Length");
        if (!length.isIndirect() && length.isInteger() && length.getIntValue() >= 0) {
            const std::size_t bytes = static_cast<std::size_t>(length.getIntValue());
            std::string_view after = rest.substr(std::min(bytes, rest.size()));
            while (!after.empty() && (after.front() == '\n' || after.front() == '\r')) after.remove_prefix(1);
            if (after.starts_with(end_word) && after.size() > end_word.size() && ends_word(after[end_word.size()]))
                return rest.substr(0, bytes);
        }
        if (++unsound_ > most_unsound) throw TooMuch("many of its streams do not say how long they are");
        return rest;
    }
    /// Its text; "" where it is damaged, for then libqpdf makes nothing of it either.
    std::string text_of(const Packed& stream, StreamUnpacker& unpacker) {
        try {
            return unpacker.unpacked(packed(stream), entry(stream, "/Filter"), entry(stream, "/DecodeParms"));
        } catch (const TooMuch&) {
            throw;
        } catch (const std::runtime_error&) {
            return {};
        }
    }
    void check_entries(const Packed& stream, StreamUnpacker& unpacker) {
        const std::size_t bytes = text_of(stream, unpacker).size();
        Handle widths = entry(stream, "/W");
        long long width = 0;
        for (Handle one : widths.isArray() ? widths.getArrayAsVector() : std::vector<Handle>())
            if (one.isInteger()) width += std::max(one.getIntValue(), 0LL);
        entries_ += bytes / static_cast<std::size_t>(std::max(width, 1LL));
        if (entries_ > most_entries(bytes_.size()))
            throw TooMuch("its cross-reference streams name more than " + std::to_string(most_entries(bytes_.size())) +
                          " objects, which is more than such a file may hold");
    }
    void check_objects(const Packed& stream, StreamUnpacker& unpacker) {
        const std::string text = text_of(stream, unpacker);
        if (text.empty()) return;
        Handle number = entry(stream, "/N"), first = entry(stream, "/First");
        if (!number.isInteger() || !first.isInteger()) return;  // no object stream: libqpdf asks for both
        objects_ += objects_in(text, starts_in(text, number.getIntValue(), first.getIntValue()));
        if (objects_ > most_objects(bytes_.size()))
            throw TooMuch("its object streams hold more than " + std::to_string(most_objects(bytes_.size())) +
                          " objects, which is more than such a file may hold");
    }
    /// The places of the objects: pairs of a number and a place behind `first` stand before them (ISO 32000-1, 7.5.7).
    static std::vector<std::size_t> starts_in(const std::string& text, long long number, long long first) {
        std::vector<std::size_t> starts;
        const char* at = text.data();
        const char* const end = at + text.size();
        const auto next = [&] {
            while (at != end && is_white(*at)) ++at;
            long long read = -1;
            const auto [behind, error] = std::from_chars(at, end, read);
            if (error != std::errc() || read < 0) throw TooMuch("an object stream whose head does not say where its objects are");
            at = behind;
            return read;
        };
        for (long long i = 0; i < number; ++i) {
            next();
            const long long place = first + next();
            if (place < 0 || place > end - text.data()) throw TooMuch("an object stream whose head does not say where its objects are");
            starts.push_back(static_cast<std::size_t>(place));
        }
        return starts;
    }

    const std::string& bytes_;
    std::string_view text_;
    QPDF scratch_;  ///< what references are read into
    std::shared_ptr<InputSource> input_;
    QPDFTokenizer tokenizer_;
    std::vector<Packed> references_, object_streams_;
    std::size_t read_ = 0, entries_ = 0, objects_ = 0;
    int unsound_ = 0;
    bool is_encrypted_ = false;
};

}  // namespace

void open_file(QPDF& file, const std::string& name, const std::string& bytes) {
    file.setSuppressWarnings(/*val=*/true);
    Survey(bytes).require_bounded();
    file.processMemoryFile(name.c_str(), bytes.data(), bytes.size());
}

}  // namespace wayfolio::unpack
