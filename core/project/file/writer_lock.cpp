#include "core/project/file/writer_lock.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <pwd.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>
#include <cerrno>

#include <array>
#include <fstream>
#include <nlohmann/json.hpp>
#include <optional>

#include "core/base/words.h"
#include "core/project/text.h"

namespace core::project {
namespace {

using LockJson = nlohmann::json;

constexpr int kTries = 100;  // each time another process was just taking the file away
// Somebody may only be looking who has the project, or be just closing it.
constexpr int kLooks = 5;
constexpr useconds_t kPauseMicroseconds = 20'000;
constexpr std::size_t kMostBytes = 4096;

std::string firstLineOf(const char* file) {
    std::ifstream stream{file};
    std::string line;
    std::getline(stream, line);
    return line;
}

Writer thisProcess() {
    Writer writer;
    const passwd* user = ::getpwuid(::getuid());
    writer.user = user != nullptr ? user->pw_name : fmt::format("user {}", ::getuid());
    std::array<char, 256> host{};
    if (::gethostname(host.data(), host.size() - 1) == 0) {
        writer.host = host.data();
    }
    writer.program = firstLineOf("/proc/self/comm");
    writer.process = ::getpid();
    writer.since = presentTime();
    writer.bootId = firstLineOf("/proc/sys/kernel/random/boot_id");
    return writer;
}

std::string toText(const Writer& writer) {
    return LockJson{{"user", writer.user},       {"host", writer.host},
                    {"program", writer.program}, {"process", writer.process},
                    {"since", writer.since},     {"boot_id", writer.bootId}}
               .dump(2, ' ', false, LockJson::error_handler_t::replace) +
           "\n";
}

/// Absent when the text does not say who it was, as when a process ended before it had written.
std::optional<Writer> writerFrom(const std::string& text) {
    const LockJson json = LockJson::parse(text, nullptr, false);
    if (!json.is_object()) {
        return std::nullopt;
    }
    const auto textAt = [&json](const char* key) {
        const auto at = json.find(key);
        return at != json.end() && at->is_string() ? at->get<std::string>() : std::string{};
    };
    Writer writer{textAt("user"),  textAt("host"),   textAt("program"), 0,
                  textAt("since"), textAt("boot_id")};
    if (json.contains("process") && json["process"].is_number_integer()) {
        writer.process = json["process"].get<std::int64_t>();
    }
    return writer;
}

std::string contentOf(int descriptor) {
    std::string bytes(kMostBytes, '\0');
    const ssize_t got = ::pread(descriptor, bytes.data(), bytes.size(), 0);
    bytes.resize(got > 0 ? static_cast<std::size_t>(got) : 0);
    return bytes;
}

bool isFile(int descriptor) {
    struct stat facts {};
    return ::fstat(descriptor, &facts) == 0 && S_ISREG(facts.st_mode);
}

bool isStillAt(int descriptor, const std::filesystem::path& file) {
    struct stat open {};
    struct stat named {};
    return ::fstat(descriptor, &open) == 0 && ::stat(file.c_str(), &named) == 0 &&
           open.st_dev == named.st_dev && open.st_ino == named.st_ino;
}

/// A machine may be renamed while it runs; one that was started again has let go of its locks.
bool isAnotherMachine(const Writer& writer) {
    const Writer here = thisProcess();
    return writer.host != here.host && (writer.bootId.empty() || writer.bootId != here.bootId);
}

auto cannotWrite(const std::filesystem::path& file) {
    if (errno == ENOSPC || errno == EDQUOT) {
        return fail(ErrorCode::WriteFailed,
                    said("The disk is full: {} cannot be written. Make room on the disk, and open "
                         "the project again.",
                         file.string()));
    }
    return fail(ErrorCode::WriteFailed,
                said("{} cannot be written ({}). Check that you may write to the folder of "
                     "the project, or copy the project to a folder of your own.",
                     file.string(), std::generic_category().message(errno)));
}

auto isInTheWay(const std::filesystem::path& file) {
    return fail(ErrorCode::WriteFailed,
                said("{} is no file, and the project needs one of that name while it is "
                     "open. Remove it, and open the project again.",
                     file.string()));
}

auto isHeld(const std::filesystem::path& project, const std::optional<Writer>& writer) {
    return fail(ErrorCode::Busy,
                said("{} is open elsewhere: {} has it. Close it there, or "
                     "look at it here without changing it.",
                     project.string(), writer ? nameOf(*writer) : said("another program")));
}

auto isHeldByAnotherHost(const std::filesystem::path& project, const std::filesystem::path& file,
                         const Writer& writer) {
    return fail(ErrorCode::Busy,
                said("{} is open on another machine: {} has it. Close it there. When that "
                     "is not so any more, delete the file {} and open the project again.",
                     project.string(), nameOf(writer), file.string()));
}

Result<void> writeFacts(int descriptor, const std::filesystem::path& file) {
    const std::string text = toText(thisProcess());
    const auto size = static_cast<ssize_t>(text.size());
    if (::ftruncate(descriptor, 0) != 0 ||
        ::pwrite(descriptor, text.data(), text.size(), 0) != size) {
        return cannotWrite(file);
    }
    return ok();
}

/// A descriptor that is closed unless it is given away.
class Descriptor {
public:
    explicit Descriptor(int number) : m_number{number} {}
    ~Descriptor() {
        if (m_number >= 0) {
            ::close(m_number);
        }
    }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    [[nodiscard]] int number() const { return m_number; }
    int release() { return std::exchange(m_number, -1); }

private:
    int m_number;
};

}  // namespace

std::string nameOf(const Writer& writer) {
    return said("{} on {} ({}, process {}) since {}", writer.user, writer.host, writer.program,
                writer.process, writer.since);
}

std::filesystem::path WriterLock::fileFor(const std::filesystem::path& project) {
    std::error_code error;
    std::filesystem::path file = std::filesystem::canonical(project, error);
    if (error) {
        file = project;
    }
    return file += ".open";
}

Result<std::unique_ptr<WriterLock>> WriterLock::take(const std::filesystem::path& project) {
    const std::filesystem::path file = fileFor(project);
    for (int tried = 0; tried < kTries; ++tried) {
        Descriptor descriptor{
            ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK, 0644)};
        if (descriptor.number() < 0) {
            return cannotWrite(file);
        }
        if (!isFile(descriptor.number())) {
            return isInTheWay(file);
        }
        const bool isLocked = ::flock(descriptor.number(), LOCK_EX | LOCK_NB) == 0;
        if (!isLocked && errno != EWOULDBLOCK) {
            return cannotWrite(file);  // a disk that knows no locks
        }
        const auto before = writerFrom(contentOf(descriptor.number()));
        if (!isLocked && tried < kLooks) {
            ::usleep(kPauseMicroseconds);
            continue;
        }
        if (!isLocked) {
            return isHeld(project, before);
        }
        if (!isStillAt(descriptor.number(), file)) {
            continue;
        }
        if (before && isAnotherMachine(*before)) {
            return isHeldByAnotherHost(project, file, *before);
        }
        if (auto written = writeFacts(descriptor.number(), file); !written) {
            std::error_code ignored;
            std::filesystem::remove(file, ignored);  // it is locked, so it is ours
            return written.error();
        }
        return std::unique_ptr<WriterLock>{new WriterLock{file, descriptor.release()}};
    }
    return isHeld(project, std::nullopt);
}

std::optional<Writer> WriterLock::holder(const std::filesystem::path& project) {
    const Descriptor descriptor{
        ::open(fileFor(project).c_str(), O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK)};
    if (descriptor.number() < 0 || !isFile(descriptor.number())) {
        return std::nullopt;
    }
    const auto writer = writerFrom(contentOf(descriptor.number()));
    const bool isFree = ::flock(descriptor.number(), LOCK_SH | LOCK_NB) == 0;
    return writer && (!isFree || isAnotherMachine(*writer)) ? writer : std::nullopt;
}

WriterLock::~WriterLock() {
    // Taken away before it is unlocked: whoever opened it meanwhile sees that it is another file.
    std::error_code ignored;
    std::filesystem::remove(m_file, ignored);
    ::close(m_descriptor);
}

}  // namespace core::project
