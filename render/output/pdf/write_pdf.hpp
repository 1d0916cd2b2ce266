#pragma once
#include "output/pdf/packed.hpp"

#include <map>
#include <string>

namespace wayfolio::output {

/// How one object of a PDF names another.
inline std::string reference(int number) { return std::to_string(number) + " 0 R"; }

/// The objects of a PDF by their numbers, as they are written: {12, "<</S /P>>"}.
class Objects {
public:
    /// An object with bytes of its own.
    struct Stream {
        std::string entries;  ///< of its dictionary, without length, and without filter where the bytes are still to be packed
        Packed bytes;
    };

    /// @param first the number from which new objects are counted
    explicit Objects(int first) : next_(first) {}

    /// A number for an object whose text comes later.
    int number() { return next_++; }
    void put(int number, std::string text) { texts_.insert_or_assign(number, std::move(text)); }
    void put_stream(int number, std::string entries, Packed bytes) {
        streams_.insert_or_assign(number, Stream{std::move(entries), std::move(bytes)});
    }
    int add(std::string text) {
        put(next_, std::move(text));
        return next_++;
    }
    int add_stream(std::string entries, Packed bytes) {
        put_stream(next_, std::move(entries), std::move(bytes));
        return next_++;
    }
    [[nodiscard]] bool has(int number) const { return texts_.contains(number) || streams_.contains(number); }
    [[nodiscard]] const std::map<int, std::string>& texts() const { return texts_; }
    [[nodiscard]] std::map<int, Stream>& streams() { return streams_; }

private:
    int next_;
    std::map<int, std::string> texts_;
    std::map<int, Stream> streams_;
};

/// Where a reader of the file begins.
struct Trailer {
    int root, info;  ///< object numbers
};

/// The bytes of a PDF 1.7 of these objects: those without bytes of their own lie in object streams (ISO 32000-1 7.5.7), streams that are
/// not packed yet are. The ID depends on the content only. Not by libqpdf: its writer spells each object in an object stream twice, piece
/// by piece, which for the thousands of elements of a structure tree was a quarter of the time of a report.
std::string write_pdf(Objects objects, Trailer trailer, text::Threads threads);

}  // namespace wayfolio::output
