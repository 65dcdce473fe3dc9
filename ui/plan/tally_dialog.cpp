#include "ui/plan/tally_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/number.h"
#include "ui/plan/habit_choice.h"

namespace ui::plan {
namespace {

using core::intake::TallyColumn;

constexpr std::size_t kPreviewRows = 6;
constexpr int kRoleRow = 0;

QString roleName(std::size_t column) {
    const auto name = core::intake::tallyColumnName(static_cast<TallyColumn>(column));
    return QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
}

}  // namespace

TallyDialog::TallyDialog(core::project::Store& store, core::project::SessionId session,
                         std::filesystem::path file, core::TextTable table, QWidget* parent)
    : QDialog{parent},
      m_store{store},
      m_session{session},
      m_file{std::move(file)},
      m_table{std::move(table)},
      m_preview{new QTableWidget},
      m_rate{new QLineEdit},
      m_counted{new HabitChoice},
      m_message{new QLabel} {
    setWindowTitle(tr("Import a tally"));
    auto* words = new QLabel{
        tr("%1 — say what each column holds. Every shot is kept with the honest interval of a "
           "whole-frame count.")
            .arg(QString::fromStdString(m_file.filename().string()))};
    words->setWordWrap(true);
    m_rate->setObjectName(QStringLiteral("tally_rate"));
    m_rate->setPlaceholderText(tr("for rows that do not say it"));
    m_rate->setToolTip(tr("Frames per second that the camera took"));
    m_message->setObjectName(QStringLiteral("tally_message"));
    m_message->setWordWrap(true);
    m_message->setTextFormat(Qt::PlainText);
    auto* buttons = new QDialogButtonBox{QDialogButtonBox::Cancel};
    m_import = buttons->addButton(tr("&Import"), QDialogButtonBox::AcceptRole);
    m_import->setObjectName(QStringLiteral("tally_import"));
    auto* form = new QFormLayout;
    form->addRow(tr("Capture &rate, per s"), m_rate);
    form->addRow(tr("&Counted"), m_counted);
    auto* layout = new QVBoxLayout{this};
    layout->addWidget(words);
    layout->addWidget(m_preview, 1);
    layout->addLayout(form);
    layout->addWidget(m_message);
    layout->addWidget(buttons);
    makePreview();
    connect(m_rate, &QLineEdit::textChanged, this, &TallyDialog::refresh);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(buttons, &QDialogButtonBox::accepted, this, &TallyDialog::import);
    resize(760, 420);
    refresh();
}

void TallyDialog::makePreview() {
    const auto proposed = core::intake::proposeMapping(m_table);
    const std::size_t rows = std::min(m_table.rows.size(), kPreviewRows);
    m_preview->setColumnCount(static_cast<int>(m_table.columns.size()));
    m_preview->setRowCount(static_cast<int>(rows) + 1);
    m_preview->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_preview->setTabKeyNavigation(false);
    m_preview->setAccessibleName(tr("First rows of the tally"));
    QStringList rowNames{tr("holds")};
    for (std::size_t column = 0; column < m_table.columns.size(); ++column) {
        const int at = static_cast<int>(column);
        m_preview->setHorizontalHeaderItem(
            at, new QTableWidgetItem{QString::fromStdString(m_table.columns[column])});
        auto* role = new QComboBox;
        role->setObjectName(QStringLiteral("tally_role_%1").arg(at));
        role->setAccessibleName(
            tr("What the column %1 holds").arg(QString::fromStdString(m_table.columns[column])));
        role->addItem(tr("—"));
        for (std::size_t i = 0; i < core::intake::kTallyColumns; ++i) {
            role->addItem(roleName(i));
            if (proposed.columns[i] == column) {
                role->setCurrentIndex(static_cast<int>(i) + 1);
            }
        }
        connect(role, &QComboBox::currentIndexChanged, this, &TallyDialog::refresh);
        m_roles.push_back(role);
        m_preview->setCellWidget(kRoleRow, at, role);
        for (std::size_t row = 0; row < rows; ++row) {
            m_preview->setItem(
                static_cast<int>(row) + 1, at,
                new QTableWidgetItem{QString::fromStdString(m_table.rows[row].fields[column])});
        }
    }
    for (std::size_t row = 0; row < rows; ++row) {
        rowNames << QString::number(m_table.rows[row].number);
    }
    m_preview->setVerticalHeaderLabels(rowNames);
    m_preview->resizeColumnsToContents();
}

core::intake::TallyMapping TallyDialog::mapping() const {
    core::intake::TallyMapping mapping;
    for (std::size_t column = 0; column < m_roles.size(); ++column) {
        const int role = m_roles[column]->currentIndex() - 1;
        if (role >= 0) {
            mapping.set(static_cast<TallyColumn>(role), column);
        }
    }
    return mapping;
}

core::Result<std::optional<core::timebase::CaptureRate>> TallyDialog::rate() const {
    constexpr double kMostFps = 1e6;
    BOOST_OUTCOME_TRY(fps, core::positiveNumberFrom(m_rate->text().toStdString(), kMostFps));
    if (!fps) {
        return std::optional<core::timebase::CaptureRate>{};
    }
    BOOST_OUTCOME_TRY(rate, core::timebase::captureRateFromDecimal(*fps));
    return std::optional{rate};
}

void TallyDialog::refresh() {
    const auto stated = rate();
    const auto tally = stated ? core::intake::readTally(m_table, mapping(), stated.value())
                              : core::Result<core::intake::Tally>{stated.error()};
    QString said;
    if (!tally) {
        said = QString::fromStdString(tally.error().message);
    } else if (tally.value().faults.empty()) {
        said = tr("%1 shots are ready.").arg(tally.value().shots.size());
    } else {
        said = tr("%1 rows are at fault, so nothing can be imported. %2")
                   .arg(tally.value().faults.size())
                   .arg(QString::fromStdString(tally.value().faults.front().message));
    }
    m_message->setText(said);
    m_import->setEnabled(tally && tally.value().faults.empty() && !tally.value().shots.empty());
}

void TallyDialog::import() {
    const auto done = core::intake::importTally(m_store, m_session, m_file, m_table, mapping(),
                                                {rate().value(), m_counted->habit()});
    if (!done) {
        m_message->setText(QString::fromStdString(done.error().message));
        return;
    }
    m_imported = done.value();
    accept();
}

}  // namespace ui::plan
