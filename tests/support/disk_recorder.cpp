#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/uio.h>
#include <unistd.h>
#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>

#include <fstream>
#include <mutex>
#include <sstream>
#include <utility>

#include "tests/support/disk_steps.h"

/// The calls that change a folder, as the C library declares them: each does its work, and when a
/// recorder is there and the call has succeeded, it is noted.

namespace tests {
namespace {

namespace fs = std::filesystem;
using Kind = DiskStep::Kind;

DiskRecorder* recorder = nullptr;  // guarded by recorderMutex()

std::recursive_mutex& recorderMutex() {
    static auto* const mutex = new std::recursive_mutex;  // calls come after the last destructor
    return *mutex;
}

template <typename Function>
Function* original(const char* name) {
    return reinterpret_cast<Function*>(::dlsym(RTLD_NEXT, name));
}

struct Refusal {
    std::string folder;  ///< empty: nothing is refused
    int error{};
};
Refusal& refusal() {
    static auto* const now = new Refusal;
    return *now;
}

/// Sets errno when it does.
bool refuses(const std::string& path) {
    const std::lock_guard lock{recorderMutex()};
    const Refusal& now = refusal();
    const bool is = !now.folder.empty() && path.starts_with(now.folder + "/");
    if (is) {
        errno = now.error;
    }
    return is;
}

/// Notes nothing while it lives: for what the recorder itself does.
class Unseen {
public:
    Unseen() : m_recorder{std::exchange(recorder, nullptr)} {}
    ~Unseen() { recorder = m_recorder; }
    Unseen(const Unseen&) = delete;
    Unseen& operator=(const Unseen&) = delete;
    [[nodiscard]] DiskRecorder* operator->() const { return m_recorder; }
    explicit operator bool() const { return m_recorder != nullptr; }

private:
    DiskRecorder* m_recorder;
};

std::string pathOf(int descriptor) {
    std::string path(4096, '\0');
    const std::string link = "/proc/self/fd/" + std::to_string(descriptor);
    const ssize_t size = ::readlink(link.c_str(), path.data(), path.size());
    path.resize(size > 0 ? static_cast<std::size_t>(size) : 0);
    return path;
}

std::string pathAt(int folder, const char* path) {
    return folder == AT_FDCWD || path[0] == '/' ? std::string{path} : pathOf(folder) + "/" + path;
}

std::uint64_t inodeAt(const std::string& path) {
    struct stat facts {};
    return ::lstat(path.c_str(), &facts) == 0 ? facts.st_ino : 0;
}

bool isFolderAt(const std::string& path) {
    struct stat facts {};
    return ::lstat(path.c_str(), &facts) == 0 && S_ISDIR(facts.st_mode);
}

/// One call: what it does, and what is noted about it when it went well.
template <typename Call, typename Note>
auto seen(const Call& call, const Note& note) {
    const std::lock_guard lock{recorderMutex()};
    const Unseen unseen;
    const auto result = call();
    const int before = errno;
    if (unseen) {
        note(*unseen.operator->(), result);
    }
    errno = before;
    return result;
}

template <typename Call>
auto opened(const std::string& path, bool creates, bool empties, const Call& call) {
    const bool isNew = inodeAt(path) == 0;
    return seen(call, [&](DiskRecorder& to, const auto& result) {
        const std::string name = to.nameOf(path);
        const std::uint64_t inode = inodeAt(path);
        if (name.empty() || inode == 0 || isFolderAt(path)) {
            return;
        }
        if (isNew && creates) {
            to.forget(inode);
            to.note({Kind::Create, name, {}, to.fileOf(inode), 0, {}});
        } else if (empties && result != decltype(result){}) {
            to.note({Kind::Resize, name, {}, to.fileOf(inode), 0, {}});
        }
    });
}

/// A step about an open file.
void noteOpen(DiskRecorder& to, int descriptor, Kind kind, std::int64_t at, std::string bytes) {
    const std::string path = pathOf(descriptor);
    struct stat facts {};
    if (to.nameOf(path).empty() || ::fstat(descriptor, &facts) != 0) {
        return;
    }
    const bool isFolder = S_ISDIR(facts.st_mode);
    to.note({isFolder ? Kind::SyncFolder : kind,
             to.nameOf(path) == "." ? "" : to.nameOf(path),
             {},
             isFolder ? 0 : to.fileOf(facts.st_ino),
             at,
             std::move(bytes)});
}

/// Where a write without a place goes.
std::int64_t placeOf(int descriptor) {
    const int flags = ::fcntl(descriptor, F_GETFL);
    return ::lseek(descriptor, 0, (flags & O_APPEND) != 0 ? SEEK_END : SEEK_CUR);
}

std::string joined(const iovec* pieces, int count, std::size_t size) {
    std::string bytes;
    for (int i = 0; i < count; ++i) {
        bytes.append(static_cast<const char*>(pieces[i].iov_base), pieces[i].iov_len);
    }
    bytes.resize(size);
    return bytes;
}

template <typename Call>
int renamed(const std::string& from, const std::string& to, Kind kind, const Call& call) {
    const std::uint64_t inode = inodeAt(from);
    const bool isFolder = isFolderAt(from);
    return seen(call, [&](DiskRecorder& recorded, int result) {
        if (result == 0 && !(recorded.nameOf(from) + recorded.nameOf(to)).empty()) {
            recorded.note({kind,
                           recorded.nameOf(from),
                           recorded.nameOf(to),
                           isFolder ? 0 : recorded.fileOf(inode),
                           0,
                           {}});
        }
    });
}

template <typename Call>
int removed(const std::string& path, const Call& call) {
    return seen(call, [&](DiskRecorder& to, int result) {
        if (result == 0 && !to.nameOf(path).empty()) {
            to.note({Kind::Remove, to.nameOf(path), {}, 0, 0, {}});
        }
    });
}

bool madeFolder(DiskRecorder& to, const std::string& path) {
    if (!to.nameOf(path).empty()) {
        to.note({Kind::MakeFolder, to.nameOf(path), {}, 0, 0, {}});
    }
    return true;
}

bool refusesToOpen(const char* path, bool creates, bool writes) {
    const bool isNew = creates && inodeAt(path) == 0;
    return (isNew || (writes && refusal().error == EROFS)) && refuses(path);
}

bool refusesOpen(int descriptor) {
    return !refusal().folder.empty() && refuses(pathOf(descriptor));
}

std::string contentAt(const fs::path& file) {
    const std::ifstream stream{file, std::ios::binary};
    std::ostringstream content;
    content << stream.rdbuf();
    return content.str();
}

}  // namespace

RefusingDisk::RefusingDisk(const fs::path& folder, int error) {
    const std::lock_guard lock{recorderMutex()};
    refusal() = {fs::canonical(folder).string(), error};
}

RefusingDisk::~RefusingDisk() {
    const std::lock_guard lock{recorderMutex()};
    refusal() = {};
}

DiskRecorder::DiskRecorder(fs::path folder) : m_folder{fs::canonical(folder)} {
    m_atStart = present();
    const std::lock_guard lock{recorderMutex()};
    recorder = this;
}

DiskRecorder::~DiskRecorder() {
    const std::lock_guard lock{recorderMutex()};
    recorder = nullptr;
}

DiskState DiskRecorder::present() {
    const std::lock_guard lock{recorderMutex()};
    const Unseen unseen;
    DiskState state;
    for (const auto& entry : fs::recursive_directory_iterator{m_folder}) {
        const std::string name = nameOf(entry.path());
        const std::uint64_t file =
            entry.is_regular_file() ? fileOf(inodeAt(entry.path().string())) : 0;
        state.names[name] = file;
        if (file != 0) {
            state.contents[file] = contentAt(entry.path());
        }
    }
    return state;
}

void DiskRecorder::note(DiskStep step) {
    m_steps.push_back(std::move(step));
    const DiskStep& last = m_steps.back();
    const bool isNamed = !m_killAtName.empty() && last.newName == m_killAtName;
    if (m_steps.size() == m_killAfter || isNamed) {
        ::raise(SIGKILL);
    }
}

std::string DiskRecorder::nameOf(const fs::path& path) const {
    const std::string whole = fs::absolute(path).lexically_normal().string();
    const std::string& folder = m_folder.string();
    if (whole == folder || whole == folder + "/") {
        return ".";
    }
    return whole.starts_with(folder + "/") ? whole.substr(folder.size() + 1) : std::string{};
}

std::uint64_t DiskRecorder::fileOf(std::uint64_t inode) {
    std::uint64_t& file = m_files[inode];
    if (file == 0) {
        file = ++m_lastFile;
    }
    return file;
}

}  // namespace tests

// NOLINTBEGIN(*): the C library's own names and signatures
#define ORIGINAL(name) static auto* const real = tests::original<decltype(::name)>(#name)

namespace {
using tests::DiskRecorder;
using Step = tests::DiskStep::Kind;

mode_t modeIn(int flags, va_list arguments) {
    return (flags & (O_CREAT | O_TMPFILE)) != 0 ? static_cast<mode_t>(va_arg(arguments, int)) : 0;
}
}  // namespace

#define RECORDED_OPEN(name)                                                                        \
    extern "C" int name(const char* path, int flags, ...) {                                        \
        ORIGINAL(name);                                                                            \
        if (tests::refusesToOpen(path, (flags & O_CREAT) != 0, (flags & O_ACCMODE) != O_RDONLY)) { \
            return -1;                                                                             \
        }                                                                                          \
        va_list arguments;                                                                         \
        va_start(arguments, flags);                                                                \
        const mode_t mode = modeIn(flags, arguments);                                              \
        va_end(arguments);                                                                         \
        return tests::opened(path, (flags & O_CREAT) != 0, (flags & O_TRUNC) != 0,                 \
                             [&] { return real(path, flags, mode); });                             \
    }
RECORDED_OPEN(open)
RECORDED_OPEN(open64)

#define RECORDED_FOPEN(name)                                              \
    extern "C" FILE* name(const char* path, const char* mode) {           \
        ORIGINAL(name);                                                   \
        if (tests::refusesToOpen(path, mode[0] != 'r', mode[0] != 'r')) { \
            return nullptr;                                               \
        }                                                                 \
        return tests::opened(path, mode[0] != 'r', mode[0] == 'w',        \
                             [&] { return real(path, mode); });           \
    }
RECORDED_FOPEN(fopen)
RECORDED_FOPEN(fopen64)

extern "C" ssize_t write(int file, const void* bytes, size_t size) {
    ORIGINAL(write);
    if (tests::refusesOpen(file)) {
        return -1;
    }
    return tests::seen(
        [&] { return real(file, bytes, size); },
        [&](DiskRecorder& to, ssize_t done) {
            if (done > 0) {
                tests::noteOpen(to, file, Step::Write, tests::placeOf(file) - done,
                                {static_cast<const char*>(bytes), static_cast<std::size_t>(done)});
            }
        });
}

extern "C" ssize_t writev(int file, const iovec* pieces, int count) {
    ORIGINAL(writev);
    if (tests::refusesOpen(file)) {
        return -1;
    }
    return tests::seen([&] { return real(file, pieces, count); },
                       [&](DiskRecorder& to, ssize_t done) {
                           if (done > 0) {
                               tests::noteOpen(
                                   to, file, Step::Write, tests::placeOf(file) - done,
                                   tests::joined(pieces, count, static_cast<std::size_t>(done)));
                           }
                       });
}

#define RECORDED_PWRITE(name)                                                         \
    extern "C" ssize_t name(int file, const void* bytes, size_t size, off_t at) {     \
        ORIGINAL(name);                                                               \
        if (tests::refusesOpen(file)) {                                               \
            return -1;                                                                \
        }                                                                             \
        return tests::seen([&] { return real(file, bytes, size, at); },               \
                           [&](DiskRecorder& to, ssize_t done) {                      \
                               if (done > 0) {                                        \
                                   tests::noteOpen(to, file, Step::Write, at,         \
                                                   {static_cast<const char*>(bytes),  \
                                                    static_cast<std::size_t>(done)}); \
                               }                                                      \
                           });                                                        \
    }
RECORDED_PWRITE(pwrite)
RECORDED_PWRITE(pwrite64)

#define RECORDED_RESIZE(name)                                                         \
    extern "C" int name(int file, off_t size) noexcept {                              \
        ORIGINAL(name);                                                               \
        return tests::seen([&] { return real(file, size); },                          \
                           [&](DiskRecorder& to, int result) {                        \
                               if (result == 0) {                                     \
                                   tests::noteOpen(to, file, Step::Resize, size, {}); \
                               }                                                      \
                           });                                                        \
    }
RECORDED_RESIZE(ftruncate)
RECORDED_RESIZE(ftruncate64)

#define RECORDED_TRUNCATE(name)                                               \
    extern "C" int name(const char* path, off_t size) noexcept {              \
        ORIGINAL(name);                                                       \
        return tests::seen([&] { return real(path, size); },                  \
                           [&](DiskRecorder& to, int result) {                \
                               if (result == 0 && !to.nameOf(path).empty()) { \
                                   to.note({Step::Resize,                     \
                                            to.nameOf(path),                  \
                                            {},                               \
                                            to.fileOf(tests::inodeAt(path)),  \
                                            size,                             \
                                            {}});                             \
                               }                                              \
                           });                                                \
    }
RECORDED_TRUNCATE(truncate)
RECORDED_TRUNCATE(truncate64)

#define RECORDED_SYNC(name)                                                      \
    extern "C" int name(int file) {                                              \
        ORIGINAL(name);                                                          \
        return tests::seen([&] { return real(file); },                           \
                           [&](DiskRecorder& to, int result) {                   \
                               if (result == 0) {                                \
                                   tests::noteOpen(to, file, Step::Sync, 0, {}); \
                               }                                                 \
                           });                                                   \
    }
RECORDED_SYNC(fsync)
RECORDED_SYNC(fdatasync)

extern "C" int rename(const char* from, const char* to) noexcept {
    ORIGINAL(rename);
    return tests::renamed(from, to, Step::Rename, [&] { return real(from, to); });
}

extern "C" int renameat2(int fromFolder, const char* from, int toFolder, const char* to,
                         unsigned flags) noexcept {
    ORIGINAL(renameat2);
    return tests::renamed(tests::pathAt(fromFolder, from), tests::pathAt(toFolder, to),
                          Step::Rename,
                          [&] { return real(fromFolder, from, toFolder, to, flags); });
}

extern "C" int link(const char* from, const char* to) noexcept {
    ORIGINAL(link);
    return tests::renamed(from, to, Step::Link, [&] { return real(from, to); });
}

#define RECORDED_REMOVE(name)                                    \
    extern "C" int name(const char* path) noexcept {             \
        ORIGINAL(name);                                          \
        return tests::removed(path, [&] { return real(path); }); \
    }
RECORDED_REMOVE(unlink)
RECORDED_REMOVE(rmdir)
RECORDED_REMOVE(remove)

extern "C" int unlinkat(int folder, const char* path, int flags) noexcept {
    ORIGINAL(unlinkat);
    return tests::removed(tests::pathAt(folder, path), [&] { return real(folder, path, flags); });
}

extern "C" int mkdir(const char* path, mode_t mode) noexcept {
    ORIGINAL(mkdir);
    if (tests::refuses(path)) {
        return -1;
    }
    return tests::seen(
        [&] { return real(path, mode); },
        [&](DiskRecorder& to, int result) { return result == 0 && tests::madeFolder(to, path); });
}

extern "C" char* mkdtemp(char* pattern) noexcept {
    ORIGINAL(mkdtemp);
    if (tests::refuses(pattern)) {
        return nullptr;
    }
    return tests::seen([&] { return real(pattern); },
                       [&](DiskRecorder& to, const char* result) {
                           return result != nullptr && tests::madeFolder(to, result);
                       });
}

extern "C" ssize_t sendfile(int to, int from, off_t* at, size_t size) noexcept;
extern "C" ssize_t sendfile(int to, int from, off_t* at, size_t size) noexcept {
    ORIGINAL(sendfile);
    return tests::seen([&] { return real(to, from, at, size); },
                       [&](DiskRecorder& noted, ssize_t done) {
                           if (done <= 0) {
                               return;
                           }
                           std::string bytes(static_cast<std::size_t>(done), '\0');
                           const std::int64_t end = tests::placeOf(to);
                           const std::string path = tests::pathOf(to);  // it is open for writing
                           std::ifstream stream{path, std::ios::binary};
                           stream.seekg(end - done);
                           stream.read(bytes.data(), done);
                           tests::noteOpen(noted, to, Step::Write, end - done, std::move(bytes));
                       });
}
// NOLINTEND(*)
