#include "gather/exports/sheet_cells.hpp"

#include <orcus/orcus_ods.hpp>
#include <orcus/orcus_xlsx.hpp>
#include <orcus/spreadsheet/import_interface.hpp>
#include <orcus/zip_archive.hpp>
#include <orcus/zip_archive_stream.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

/// Reads spreadsheets through liborcus. A module of its own: see gather/exports/sheet_cells.hpp.
namespace wayfolio::sheets {
namespace {

namespace ss = orcus::spreadsheet;
using gather::SheetForm;
using gather::SheetTaker;

struct HeldCell {
    ss::row_t row;
    ss::col_t column;
    bool is_number = false;
    double number = 0;
    std::size_t shared = std::string::npos;  ///< place of its text among the shared ones
    std::string text{};
};

/// Texts that cells name by their place.
class Strings : public ss::iface::import_shared_strings {
public:
    std::vector<std::string> all;

    std::size_t append(std::string_view text) override {
        all.emplace_back(text);
        return all.size() - 1;
    }
    std::size_t add(std::string_view text) override { return append(text); }
    void set_segment_font(std::size_t) override {}
    void set_segment_bold(bool) override {}
    void set_segment_italic(bool) override {}
    void set_segment_font_name(std::string_view) override {}
    void set_segment_font_size(double) override {}
    void set_segment_font_color(ss::color_elem_t, ss::color_elem_t, ss::color_elem_t, ss::color_elem_t) override {}
    void append_segment(std::string_view text) override { segments_ += text; }
    std::size_t commit_segments() override { return append(std::exchange(segments_, {})); }

private:
    std::string segments_;
};

class Sheet;

/// A formula counts with the value that was kept beside it.
class Formula : public ss::iface::import_formula {
public:
    explicit Formula(Sheet& sheet) : sheet_(sheet) {}
    void set_position(ss::row_t row, ss::col_t column) override { row_ = row, column_ = column; }
    void set_formula(ss::formula_grammar_t, std::string_view) override {}
    void set_shared_formula_index(std::size_t) override {}
    void set_result_string(std::string_view text) override;
    void set_result_value(double value) override;
    void set_result_bool(bool) override {}
    void set_result_empty() override {}
    void commit() override {}

private:
    Sheet& sheet_;
    ss::row_t row_ = 0;
    ss::col_t column_ = 0;
};

class Sheet : public ss::iface::import_sheet {
public:
    Sheet(std::string name, std::size_t& held) : name(std::move(name)), held_(held), formula_(*this) {}

    std::string name;
    std::vector<HeldCell> cells;

    void set_auto(ss::row_t row, ss::col_t column, std::string_view text) override {
        hold({.row = row, .column = column, .text = std::string(text)});
    }
    void set_string(ss::row_t row, ss::col_t column, ss::string_id_t place) override {
        hold({.row = row, .column = column, .shared = place});
    }
    void set_value(ss::row_t row, ss::col_t column, double value) override {
        hold({.row = row, .column = column, .is_number = true, .number = value});
    }
    void set_bool(ss::row_t row, ss::col_t column, bool value) override {
        hold({.row = row, .column = column, .text = value ? "true" : "false"});
    }
    void set_date_time(ss::row_t row, ss::col_t column, int year, int month, int day, int hour, int minute, double second) override {
        char text[64];
        std::snprintf(text, sizeof text, "%04d-%02d-%02dT%02d:%02d:%02d", year, month, day, hour, minute,
                      static_cast<int>(std::lround(second)));
        hold({.row = row, .column = column, .text = text});
    }
    void set_format(ss::row_t, ss::col_t, std::size_t) override {}
    void set_format(ss::row_t, ss::col_t, ss::row_t, ss::col_t, std::size_t) override {}
    void fill_down_cells(ss::row_t row, ss::col_t column, ss::row_t count) override {
        const auto same = std::ranges::find_if(cells, [&](const HeldCell& cell) { return cell.row == row && cell.column == column; });
        if (same == cells.end()) return;
        const HeldCell from = *same;
        for (ss::row_t down = 1; down <= count; ++down) {
            HeldCell copy = from;
            copy.row = row + down;
            hold(std::move(copy));
        }
    }
    [[nodiscard]] ss::range_size_t get_sheet_size() const override { return {1'048'576, 16'384}; }
    ss::iface::import_formula* get_formula() override { return &formula_; }

    void hold(HeldCell cell) {
        if (++held_ > gather::most_sheet_cells) throw std::runtime_error("more than 3 000 000 cells");
        cells.push_back(std::move(cell));
    }

private:
    std::size_t& held_;
    Formula formula_;
};

void Formula::set_result_string(std::string_view text) { sheet_.hold({.row = row_, .column = column_, .text = std::string(text)}); }
void Formula::set_result_value(double value) { sheet_.hold({.row = row_, .column = column_, .is_number = true, .number = value}); }

/// "B7" and "A1:C9", as cells of a workbook name each other.
class Resolver : public ss::iface::import_reference_resolver {
public:
    ss::src_address_t resolve_address(std::string_view address) override {
        ss::src_address_t found{0, 0, 0};
        for (const char letter : address) {
            if (letter >= 'A' && letter <= 'Z')
                found.column = found.column * 26 + (letter - 'A' + 1);
            else if (letter >= '0' && letter <= '9')
                found.row = found.row * 10 + (letter - '0');
            else if (letter != '$')
                throw std::runtime_error("a cell called " + std::string(address));
            if (found.column > 16'384 || found.row > 1'048'576) throw std::runtime_error("a cell beyond the sheet");
        }
        if (found.column == 0 || found.row == 0) throw std::runtime_error("a cell called " + std::string(address));
        --found.column;
        --found.row;
        return found;
    }
    ss::src_range_t resolve_range(std::string_view range) override {
        const std::size_t colon = range.find(':');
        const ss::src_address_t first = resolve_address(range.substr(0, colon));
        return {first, colon == std::string_view::npos ? first : resolve_address(range.substr(colon + 1))};
    }
};

class Factory : public ss::iface::import_factory {
public:
    Strings strings;
    std::vector<std::unique_ptr<Sheet>> sheets;

    ss::iface::import_shared_strings* get_shared_strings() override { return &strings; }
    ss::iface::import_reference_resolver* get_reference_resolver(ss::formula_ref_context_t) override { return &resolver_; }
    ss::iface::import_sheet* append_sheet(ss::sheet_t, std::string_view name) override {
        sheets.push_back(std::make_unique<Sheet>(std::string(name), held_));
        return sheets.back().get();
    }
    ss::iface::import_sheet* get_sheet(std::string_view name) override {
        for (const auto& sheet : sheets)
            if (sheet->name == name) return sheet.get();
        return nullptr;
    }
    ss::iface::import_sheet* get_sheet(ss::sheet_t place) override {
        return place >= 0 && static_cast<std::size_t>(place) < sheets.size() ? sheets[static_cast<std::size_t>(place)].get() : nullptr;
    }
    void finalize() override {}

private:
    std::size_t held_ = 0;
    Resolver resolver_;
};

/// Trap: liborcus 0.17 passes over words that stand in their cells (ISO/IEC 29500-1, 18.18.11: inlineStr), and says nothing: a reading
/// with a word in its place would be taken for one that is missing.
void require_no_inline_words(std::string_view bytes) {
    orcus::zip_archive_stream_blob stream(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
    orcus::zip_archive archive(&stream);
    archive.load();
    std::vector<unsigned char> part;
    for (std::size_t i = 0; i < archive.get_file_entry_count(); ++i) {
        const std::string_view name = archive.get_file_entry_name(i);
        if (!name.starts_with("xl/worksheets/") || !archive.read_file_entry(name, part)) continue;
        const std::string_view text(reinterpret_cast<const char*>(part.data()), part.size());
        for (const char* mark : {"=\"inlineStr\"", "='inlineStr'"})
            if (text.find(mark) != std::string_view::npos)
                throw std::runtime_error("its words stand in the cells, which are not read: save it again in a spreadsheet program, "
                                         "or as text");
    }
}

void hand_over(Factory& factory, const SheetTaker& taker) {
    for (const auto& sheet : factory.sheets) {
        taker.sheet(taker.context, sheet->name.data(), sheet->name.size());
        std::ranges::stable_sort(sheet->cells, {}, [](const HeldCell& cell) { return std::pair(cell.row, cell.column); });
        for (const HeldCell& cell : sheet->cells) {
            const auto row = static_cast<std::uint32_t>(cell.row + 1), column = static_cast<std::uint32_t>(cell.column + 1);
            const bool shared = cell.shared < factory.strings.all.size();
            const std::string& text = shared ? factory.strings.all[cell.shared] : cell.text;
            if (cell.is_number)
                taker.number(taker.context, row, column, cell.number);
            else
                taker.text(taker.context, row, column, text.data(), text.size());
        }
    }
}

}  // namespace
}  // namespace wayfolio::sheets

extern "C" __attribute__((visibility("default"))) int wayfolio_read_sheets(const char* bytes, std::size_t size,
                                                                           wayfolio::gather::SheetForm form,
                                                                           const wayfolio::gather::SheetTaker* taker, char* error,
                                                                           std::size_t error_size) {
    using namespace wayfolio::sheets;
    try {
        Factory factory;
        if (form == SheetForm::Xlsx) {
            require_no_inline_words({bytes, size});
            orcus::orcus_xlsx(&factory).read_stream({bytes, size});
        } else
            orcus::orcus_ods(&factory).read_stream({bytes, size});
        hand_over(factory, *taker);
        return 0;
    } catch (const std::exception& failure) { std::snprintf(error, error_size, "%s", failure.what()); } catch (...) {
        std::snprintf(error, error_size, "no reason given");
    }
    return 1;
}
