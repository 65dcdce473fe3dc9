#include "tests/support/disk_steps.h"

#include <algorithm>
#include <fstream>
#include <random>

namespace tests {
namespace {

namespace fs = std::filesystem;
using Kind = DiskStep::Kind;

std::string folderOf(const std::string& name) {
    return fs::path{name}.parent_path().string();
}

void writeInto(std::string& content, const DiskStep& step) {
    const auto at = static_cast<std::size_t>(step.at);
    content.resize(std::max(content.size(), at + step.bytes.size()), '\0');
    content.replace(at, step.bytes.size(), step.bytes);
}

void changeContent(std::string& content, const DiskStep& step) {
    if (step.kind == Kind::Write) {
        writeInto(content, step);
    } else {
        content.resize(static_cast<std::size_t>(step.at), '\0');
    }
}

void changeNames(DiskState& state, const DiskStep& step) {
    if (step.kind == Kind::Remove) {
        state.names.erase(step.name);
        return;
    }
    const bool isNew = step.kind == Kind::Create || step.kind == Kind::MakeFolder;
    if (step.kind == Kind::Rename) {
        state.names.erase(step.name);
    }
    state.names[isNew ? step.name : step.newName] = step.file;
}

bool isOfContent(const DiskStep& step) {
    return step.kind == Kind::Write || step.kind == Kind::Resize;
}

bool touches(const DiskStep& step, const std::string& name) {
    return !name.empty() && (step.name == name || step.newName == name);
}

/// A disk with what has not reached it yet.
class Disk {
public:
    explicit Disk(const DiskState& start) : m_safe{start} {}

    void take(const DiskStep& step) {
        if (isOfContent(step)) {
            m_contents[step.file].push_back(&step);
        } else if (step.kind == Kind::Sync) {
            for (const DiskStep* change : m_contents[step.file]) {
                changeContent(m_safe.contents[step.file], *change);
            }
            m_contents[step.file].clear();
        } else if (step.kind == Kind::SyncFolder) {
            syncFolder(step.name);
        } else {
            m_names.push_back(&step);
        }
    }

    DiskState withEverything() {
        for (const DiskStep* step : m_names) {
            changeNames(m_safe, *step);
        }
        for (const auto& [file, changes] : m_contents) {
            for (const DiskStep* change : changes) {
                changeContent(m_safe.contents[file], *change);
            }
        }
        return m_safe;
    }

    DiskState withAny(std::uint64_t seed) {
        std::mt19937_64 random{seed};
        const std::size_t sector = random() % 2 == 0 ? 512 : 4096;
        const unsigned kept = 10 * static_cast<unsigned>(random() % 11);  // per cent
        const auto isKept = [&] { return random() % 100 < kept; };
        // As a file system with a journal of its names does it, or one without.
        const bool inOrder = random() % 2 == 0;
        const std::size_t first = random() % (m_names.size() + 1);
        for (std::size_t i = 0; i < m_names.size(); ++i) {
            if (inOrder ? i < first : isKept()) {
                changeNames(m_safe, *m_names[i]);
            }
        }
        for (const auto& [file, changes] : m_contents) {
            for (const DiskStep* change : changes) {
                keepSome(m_safe.contents[file], *change, sector, isKept);
            }
        }
        return m_safe;
    }

private:
    void syncFolder(const std::string& folder) {
        std::vector<const DiskStep*> waiting;
        for (std::size_t i = 0; i < m_names.size(); ++i) {
            const DiskStep& step = *m_names[i];
            const bool isHere = folderOf(step.name) == folder ||
                                (!step.newName.empty() && folderOf(step.newName) == folder);
            // What an older step did to the same name comes before.
            const bool isNeeded = std::any_of(
                m_names.begin() + static_cast<std::ptrdiff_t>(i), m_names.end(),
                [&](const DiskStep* later) {
                    return folderOf(later->newName) == folder &&
                           (touches(step, later->name) || touches(step, later->newName));
                });
            if (isHere || isNeeded) {
                changeNames(m_safe, step);
            } else {
                waiting.push_back(&step);
            }
        }
        m_names = waiting;
    }

    template <typename Choice>
    static void keepSome(std::string& content, const DiskStep& change, std::size_t sector,
                         const Choice& isKept) {
        if (change.kind == Kind::Resize) {
            if (isKept()) {
                changeContent(content, change);
            }
            return;
        }
        for (std::size_t done = 0; done < change.bytes.size();) {
            const std::size_t at = static_cast<std::size_t>(change.at) + done;
            const std::size_t size = std::min(change.bytes.size() - done, sector - at % sector);
            DiskStep piece = change;
            piece.at = static_cast<std::int64_t>(at);
            piece.bytes = change.bytes.substr(done, size);
            const bool isBehindTheEnd = at >= content.size();
            if (isKept()) {
                writeInto(content, piece);
            } else if (isBehindTheEnd && isKept()) {  // the length came through, the bytes did not
                std::fill(piece.bytes.begin(), piece.bytes.end(), '\x5a');
                writeInto(content, piece);
            }
            done += size;
        }
    }

    DiskState m_safe;
    std::vector<const DiskStep*> m_names;
    std::map<std::uint64_t, std::vector<const DiskStep*>> m_contents;
};

Disk diskAfter(const DiskState& start, const std::vector<DiskStep>& steps, std::size_t count) {
    Disk disk{start};
    for (std::size_t i = 0; i < count; ++i) {
        disk.take(steps[i]);
    }
    return disk;
}

}  // namespace

DiskState stateAfter(const DiskState& start, const std::vector<DiskStep>& steps,
                     std::size_t count) {
    return diskAfter(start, steps, count).withEverything();
}

DiskState afterPowerLoss(const DiskState& start, const std::vector<DiskStep>& steps,
                         std::size_t count, std::uint64_t seed) {
    return diskAfter(start, steps, count).withAny(seed);
}

void writeState(const DiskState& state, const fs::path& folder) {
    const auto isReachable = [&state](const std::string& name) {
        for (std::string parent = folderOf(name); !parent.empty(); parent = folderOf(parent)) {
            if (!state.names.contains(parent)) {
                return false;  // its folder did not come through
            }
        }
        return true;
    };
    std::map<std::uint64_t, fs::path> written;
    for (const auto& [name, file] : state.names) {  // a folder comes before what is in it
        if (!isReachable(name)) {
            continue;
        }
        if (file == 0) {
            fs::create_directories(folder / name);
        } else if (written.contains(file)) {
            fs::create_hard_link(written[file], folder / name);
        } else {
            const auto content = state.contents.find(file);
            std::ofstream stream{folder / name, std::ios::binary};
            if (content != state.contents.end()) {
                stream.write(content->second.data(),
                             static_cast<std::streamsize>(content->second.size()));
            }
            written[file] = folder / name;
        }
    }
}

}  // namespace tests
