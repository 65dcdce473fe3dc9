#pragma once

#include <QAbstractTableModel>
#include <QString>
#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/project/snapshot.h"

namespace ui::models {

/// The clips of a project as rows: what is known of their clock and what is wrong with them.
/// Confined to the thread of the store. Of the project it holds the newest snapshot.
class ClipTableModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { kName, kCaptured, kShots, kCells, kRemarks, kColumnCount };
    /// Which clips are rows.
    enum class Show {
        All,
        NotAssigned,  ///< with a shot that belongs to no implement
        ToSettle      ///< something about the clip waits for a person
    };
    /// What is wrong with a clip, at the worst.
    enum class Standing { Fine, Note, Question, Grave };
    /// A shot, as parts of the clip's length from 0 to 1.
    struct Flight {
        double strike{};
        double end{};
    };
    /// What a row says beside its texts.
    struct Row {
        core::project::ClipId clip;
        QString length;      ///< "6 shots · 1.1 s"; in frames while the clock is not settled
        QString rate;        ///< "240 frames/s"
        QString rateSource;  ///< "time stamps"; "nothing states it"
        bool isClockKnown{};
        QString implement;  ///< or in words why there is none
        QString hitter;     ///< empty when the shots are of several cells, or of none
        std::size_t hitterPlace{};
        std::vector<Flight> flights;
        Standing standing{};
    };

    explicit ClipTableModel(core::project::SnapshotPtr snapshot, QObject* parent = nullptr);

    /// The clips that are rows: of this kind, with all these words in name, implement or hitter.
    void show(Show kind, const QString& words);
    [[nodiscard]] Show shown() const noexcept { return m_kind; }
    /// How many clips of the project are of this kind, whatever is looked for.
    [[nodiscard]] int count(Show kind) const;
    /// The project is another now. Resets when the rows are others.
    void update(core::project::SnapshotPtr snapshot);
    /// Clips whose file is not where the project says.
    void setMissing(std::set<core::project::ClipId> clips);
    [[nodiscard]] bool isMissing(core::project::ClipId clip) const {
        return m_missing.contains(clip);
    }
    /// Clips that differ from the set-up of their day, and in what, in a sentence.
    void setDifferent(std::map<core::project::ClipId, std::string> clips);
    [[nodiscard]] core::project::ClipId clipAt(int row) const;
    [[nodiscard]] Row rowAt(int row) const;
    /// -1 when the clip is not shown.
    [[nodiscard]] int rowOf(core::project::ClipId clip) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    struct ClipShots {
        std::vector<Flight> flights;
        std::set<core::project::CellId> cells;
        bool hasLooseShot{};
    };
    void countShots();
    void chooseRows();
    void tellRemarks();
    [[nodiscard]] const core::project::Clip& at(int row) const;
    [[nodiscard]] const ClipShots& shotsOf(const core::project::Clip& clip) const;
    [[nodiscard]] Standing standingOf(const core::project::Clip& clip) const;
    [[nodiscard]] bool isOf(const core::project::Clip& clip, Show kind) const;
    [[nodiscard]] QString lengthOf(const core::project::Clip& clip) const;
    [[nodiscard]] QString textOf(const core::project::Clip& clip, int column) const;
    [[nodiscard]] QString cellsOf(const core::project::Clip& clip) const;
    [[nodiscard]] QString tipOf(const core::project::Clip& clip) const;

    core::project::SnapshotPtr m_snapshot;
    Show m_kind{Show::All};
    QStringList m_words;
    std::vector<std::size_t> m_rows;  ///< places among the clips of the project
    std::map<core::project::ClipId, ClipShots> m_shots;
    std::set<core::project::ClipId> m_missing;
    std::map<core::project::ClipId, std::string> m_different;
};

}  // namespace ui::models
