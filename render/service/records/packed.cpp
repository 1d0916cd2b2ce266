#include "service/records/packed.hpp"

#include <archive.h>
#include <archive_entry.h>
#include <dlfcn.h>

#include <memory>
#include <stdexcept>

namespace wayfolio::service {
namespace {

/// The functions of libarchive that packing needs. Loaded when a record is packed: linked, it would bring libxml2 and ICU into every start
/// of the program.
struct Packer {
    decltype(&archive_write_new) make;
    decltype(&archive_write_free) free;
    decltype(&archive_write_set_format_zip) as_zip;
    decltype(&archive_write_set_format_pax_restricted) as_tar;
    decltype(&archive_write_open) open;
    decltype(&archive_write_close) close;
    decltype(&archive_write_header) header;
    decltype(&archive_write_data) data;
    decltype(&archive_error_string) error;
    decltype(&archive_entry_new) new_entry;
    decltype(&archive_entry_free) free_entry;
    decltype(&archive_entry_set_pathname_utf8) set_name;
    decltype(&archive_entry_set_size) set_size;
    decltype(&archive_entry_set_filetype) set_type;
    decltype(&archive_entry_set_perm) set_permissions;
};

Packer load() {
    void* const library = dlopen("libarchive.so.13", RTLD_NOW | RTLD_LOCAL);
    const auto find = [&]<class Function>(Function& function, const char* name) {
        function = library ? reinterpret_cast<Function>(dlsym(library, name)) : nullptr;
        if (!function) throw std::runtime_error(std::string("packing needs libarchive: ") + dlerror());
    };
    Packer functions{};
    find(functions.make, "archive_write_new");
    find(functions.free, "archive_write_free");
    find(functions.as_zip, "archive_write_set_format_zip");
    find(functions.as_tar, "archive_write_set_format_pax_restricted");
    find(functions.open, "archive_write_open");
    find(functions.close, "archive_write_close");
    find(functions.header, "archive_write_header");
    find(functions.data, "archive_write_data");
    find(functions.error, "archive_error_string");
    find(functions.new_entry, "archive_entry_new");
    find(functions.free_entry, "archive_entry_free");
    find(functions.set_name, "archive_entry_set_pathname_utf8");
    find(functions.set_size, "archive_entry_set_size");
    find(functions.set_type, "archive_entry_set_filetype");
    find(functions.set_permissions, "archive_entry_set_perm");
    return functions;
}

const Packer& packer() {
    static const Packer functions = load();
    return functions;
}

la_ssize_t append(::archive*, void* to, const void* bytes, std::size_t count) {
    static_cast<std::string*>(to)->append(static_cast<const char*>(bytes), count);
    return static_cast<la_ssize_t>(count);
}

void require(int code, ::archive* writer) {
    if (code == ARCHIVE_OK) return;
    const char* const what = packer().error(writer);
    throw std::runtime_error(std::string("a record cannot be packed: ") + (what ? what : "no reason given"));
}

void add(::archive* writer, const std::string& name, const std::string& bytes) {
    const std::unique_ptr<archive_entry, void (*)(archive_entry*)> entry(packer().new_entry(), packer().free_entry);
    packer().set_name(entry.get(), name.c_str());
    packer().set_size(entry.get(), static_cast<la_int64_t>(bytes.size()));
    packer().set_type(entry.get(), AE_IFREG);
    constexpr mode_t readable = 0644;
    packer().set_permissions(entry.get(), readable);
    require(packer().header(writer, entry.get()), writer);
    if (packer().data(writer, bytes.data(), bytes.size()) != static_cast<la_ssize_t>(bytes.size())) require(ARCHIVE_FATAL, writer);
}

}  // namespace

std::string packed(const archive::Files& files, PackedAs as) {
    const std::unique_ptr<::archive, int (*)(::archive*)> writer(packer().make(), packer().free);
    std::string bytes;
    require(as == PackedAs::Zip ? packer().as_zip(writer.get()) : packer().as_tar(writer.get()), writer.get());
    require(packer().open(writer.get(), &bytes, nullptr, append, nullptr), writer.get());
    for (const auto& [name, content] : files) add(writer.get(), name, content);
    require(packer().close(writer.get()), writer.get());
    return bytes;
}

}  // namespace wayfolio::service
