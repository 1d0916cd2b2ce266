#include "conformance/checked_file.hpp"

#include <array>

namespace wayfolio::conformance {

namespace {

/// ICC.1:2010, 7.2: size, device class, colour space and signature in the head of a profile.
bool is_rgb_profile(const std::string& profile) {
    if (profile.size() < 132) return false;
    std::size_t size = 0;
    for (int i = 0; i < 4; ++i) size = size << 8 | static_cast<unsigned char>(profile[static_cast<std::size_t>(i)]);
    const std::string device = profile.substr(12, 4);
    return size == profile.size() && (device == "mntr" || device == "prtr" || device == "scnr") && profile.substr(16, 4) == "RGB " &&
           profile.substr(36, 4) == "acsp";
}

void check_intent(const CheckedFile& subject) {
    Handle intents = subject.root().getKey("/OutputIntents");
    if (!intents.isArray() || intents.getArrayNItems() != 1) return subject.fault("intent", "catalog", "not one output intent");
    Handle intent = intents.getArrayItem(0), profile = intent.getKey("/DestOutputProfile");
    if (!intent.getKey("/S").isNameAndEquals("/GTS_PDFA1") || !intent.getKey("/OutputConditionIdentifier").isString())
        subject.fault("intent", "output intent", "not a GTS_PDFA1 intent with an identifier");
    if (!profile.isStream() || !profile.getDict().getKey("/N").isInteger() || profile.getDict().getKey("/N").getIntValue() != 3 ||
        !is_rgb_profile(subject.unpacker.unpacked(profile)))
        subject.fault("intent", "output intent", "no sound RGB profile");
}

void check_actions(const CheckedFile& subject) {
    Handle root = subject.root();
    for (const char* key : {"/OpenAction", "/AA", "/AcroForm"})
        if (root.hasKey(key)) subject.fault("catalog-actions", "catalog", std::string(key) + " stands there");
    if (root.getKey("/Names").isDictionary() && root.getKey("/Names").hasKey("/JavaScript"))
        subject.fault("catalog-actions", "catalog", "scripts");
    for (Handle page : subject.file.getAllPages())
        if (page.hasKey("/AA")) subject.fault("catalog-actions", "a page", "an action by itself");
    constexpr std::array<const char*, 10> forbidden{"/Launch",     "/Sound", "/Movie",      "/ResetForm", "/ImportData",
                                                    "/JavaScript", "/Hide",  "/SubmitForm", "/Rendition", "/GoToR"};
    for (Handle object : subject.file.getAllObjects()) {
        if (!object.isDictionary()) continue;
        for (Handle action : {object, object.getKey("/A")})
            for (const char* type : forbidden)
                if (action.isDictionary() && action.getKey("/S").isNameAndEquals(type)) subject.fault("catalog-actions", "an action", type);
    }
}

}  // namespace

void check_catalog(const CheckedFile& subject) {
    Handle root = subject.root();
    if (!root.getKey("/Lang").isString() || root.getKey("/Lang").getUTF8Value().empty())
        subject.fault("catalog-language", "catalog", "no /Lang");
    const auto is_true = [&](const char* dictionary, const char* key) {
        Handle found = root.getKey(dictionary);
        return found.isDictionary() && found.getKey(key).isBool() && found.getKey(key).getBoolValue();
    };
    if (!is_true("/MarkInfo", "/Marked")) subject.fault("catalog-marked", "catalog", "no /MarkInfo with /Marked true");
    if (is_true("/MarkInfo", "/Suspects")) subject.fault("catalog-suspects", "catalog", "/MarkInfo with /Suspects true");
    if (!is_true("/ViewerPreferences", "/DisplayDocTitle")) subject.fault("catalog-title", "catalog", "no /DisplayDocTitle true");
    check_intent(subject);
    check_actions(subject);
}

}  // namespace wayfolio::conformance
