#include "conformance/checked_file.hpp"

#include <algorithm>
#include <array>
#include <limits>

namespace wayfolio::conformance {

namespace {

constexpr std::size_t longest_string = 32'767, longest_name = 127;
constexpr int most_levels_of_objects = 100;

void check_stream(const CheckedFile& subject, Handle stream) {
    Handle dictionary = stream.getDict(), filter = dictionary.getKey("/Filter");
    const std::string where = "object " + std::to_string(stream.getObjectID());
    for (Handle one : filter.isArray() ? filter.getArrayAsVector() : std::vector<Handle>{filter})
        if (one.isNameAndEquals("/LZWDecode") || one.isNameAndEquals("/Crypt")) subject.fault("stream-filters", where, one.getName());
    if (dictionary.hasKey("/F")) subject.fault("stream-filters", where, "the stream lies in another file");
    if (!dictionary.getKey("/Subtype").isNameAndEquals("/Image")) return;
    Handle interpolate = dictionary.getKey("/Interpolate");
    if (interpolate.isBool() && interpolate.getBoolValue()) subject.fault("image-interpolation", where, "/Interpolate true");
    if (dictionary.getKey("/ColorSpace").isNameAndEquals("/DeviceCMYK")) subject.fault("colour", where, "a picture in four inks");
}

/// ISO 32000-1, tables 136 and 137.
bool is_blend_mode(Handle mode) {
    constexpr std::array<const char*, 17> known{"/Normal",    "/Compatible", "/Multiply",   "/Screen",    "/Overlay", "/Darken",
                                                "/Lighten",   "/ColorDodge", "/ColorBurn",  "/HardLight", "/SoftLight", "/Difference",
                                                "/Exclusion", "/Hue",        "/Saturation", "/Color",     "/Luminosity"};
    return std::ranges::any_of(known, [&](const char* one) { return mode.isNameAndEquals(one); });
}

/// An object with all that stands in it and is no object of its own.
void check_parts(const CheckedFile& subject, Handle object, const std::string& where, int level) {
    if (level > most_levels_of_objects) return subject.fault("limits", where, "too many objects in each other");
    if (object.isString() && object.getStringValue().size() > longest_string)
        subject.fault("limits", where, "a string of " + std::to_string(object.getStringValue().size()) + " bytes");
    const auto check_name = [&](const std::string& name) {
        if (name.size() > longest_name + 1) subject.fault("limits", where, "a name of " + std::to_string(name.size() - 1) + " bytes");
    };
    if (object.isName()) check_name(object.getName());
    using Whole = std::numeric_limits<int>;
    if (object.isInteger() && (object.getIntValue() > Whole::max() || object.getIntValue() < Whole::min()))
        subject.fault("limits", where, "the whole number " + std::to_string(object.getIntValue()));
    if (object.isDictionary() && object.hasKey("/BM")) {
        Handle modes = object.getKey("/BM");
        for (Handle mode : modes.isArray() ? modes.getArrayAsVector() : std::vector<Handle>{modes})
            if (!is_blend_mode(mode)) subject.fault("blend-modes", where, "the blend mode " + mode.unparse());
    }
    const auto check_part = [&](Handle part) {
        if (!part.isIndirect()) check_parts(subject, part, where, level + 1);
    };
    if (object.isArray())
        for (Handle part : object.getArrayAsVector()) check_part(part);
    if (object.isDictionary())
        for (auto& [key, part] : object.getDictAsMap()) {
            check_name(key);
            check_part(part);
        }
}

}  // namespace

void check_objects(const CheckedFile& subject) {
    for (Handle object : subject.file.getAllObjects()) {
        if (object.isStream()) check_stream(subject, object);
        check_parts(subject, object.isStream() ? object.getDict() : object, "object " + std::to_string(object.getObjectID()), 0);
    }
}

}  // namespace wayfolio::conformance
