#include "gather/exports/decoder.hpp"
#include "gather/exports/read_export.hpp"
#include "input/digest.hpp"
#include "input/read_file.hpp"

#include <filesystem>
#include <memory>

namespace wayfolio::gather {

ExportFile export_file(const std::string& path) {
    if (path == "-")
        return {path, "standard input",
                [bytes = std::shared_ptr<std::string>()](const std::function<void(std::string_view)>& take) mutable {
                    if (!bytes) bytes = std::make_shared<std::string>(input::read_file("-"));  // it can be read but once
                    take(*bytes);
                }};
    return {std::filesystem::path(path).filename().string(), path,
            [path](const std::function<void(std::string_view)>& take) { input::read_in_pieces(path, take); }};
}

ExportFile export_of_bytes(std::string name, std::string_view bytes) {
    std::string path = name;
    return {std::move(name), std::move(path), [bytes](const std::function<void(std::string_view)>& take) { take(bytes); }};
}

std::string read_text_rows(const ExportFile& file, const Dialect& dialect, ExportFaults& faults, const RowSink& sink) {
    Decoder decoder(dialect.encoding);
    RowCutter cutter(dialect, faults, sink);
    input::Digest digest(input::DigestKind::Sha256);
    bool stopped = false;
    const auto decode = [&](std::string_view piece, bool last) {
        if (stopped || cutter.stopped()) return;
        const Decoder::Text decoded = decoder.decoded(piece, last);
        if (decoded.bad) {
            faults.add(cutter.spot_of(decoded.text, decoded.bad->place), decoded.bad->found, decoded.bad->expected, decoded.bad->hint);
            stopped = true;
            return;
        }
        cutter.add(decoded.text);
    };
    file.read([&](std::string_view piece) {
        digest.add(piece);
        decode(piece, /*last=*/false);
    });
    decode({}, /*last=*/true);
    if (!stopped) cutter.finish();
    return digest.hex();
}

}  // namespace wayfolio::gather
