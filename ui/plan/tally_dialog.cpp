#include "ui/plan/tally_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QSplitter>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>
#include <set>

#include "core/base/kept_words.h"
#include "core/base/number.h"
#include "core/base/words.h"
#include "core/intake/session_for.h"
#include "ui/models/number_text.h"
#include "ui/plan/habit_choice.h"
#include "ui/plan/tally_columns.h"
#include "ui/plan/tally_questions.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/tokens.h"

namespace ui::plan {
namespace {

using core::intake::TallyShape;

constexpr std::size_t kShotsShown = 12;
constexpr int kProgressSteps = 1000;

QString qt(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

QWidget* titled(const QString& title, QWidget* content) {
    auto* box = new QWidget;
    auto* layout = new QVBoxLayout{box};
    layout->setContentsMargins(0, 0, 0, 0);
    auto* label = new QLabel{title};
    label->setBuddy(content);
    layout->addWidget(label);
    layout->addWidget(content, 1);
    return box;
}

QTableWidgetItem* numberItem(const QString& text) {
    auto* item = new QTableWidgetItem{text};
    item->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
    return item;
}

/// The filming day that the counts come into; without an id when it is to be added.
core::project::Session dayFor(const core::project::Snapshot& snapshot, const std::string& date) {
    return snapshot.sessions.isEmpty() ? core::intake::newSession(snapshot, {}, date)
                                       : *(snapshot.sessions.end() - 1);
}

QString attributeOf(const core::intake::Tally& tally, const core::intake::TallyShot& shot,
                    const std::string& name) {
    const auto implement = tally.attributes.find({shot.implement, shot.condition});
    if (implement == tally.attributes.end()) {
        return {};
    }
    const auto value = implement->second.find(name);
    return value == implement->second.end() ? QString{} : QString::fromStdString(value->second);
}

QString separatorWords(char separator) {
    switch (separator) {
        case '\t':
            return TallyDialog::tr("tabs");
        case ';':
            return TallyDialog::tr("semicolons");
        default:
            return TallyDialog::tr("commas");
    }
}

}  // namespace

TallyDialog::TallyDialog(core::project::Store& store, std::filesystem::path file,
                         core::intake::TallySheet sheet, std::string date, QWidget* parent)
    : QDialog{parent},
      m_store{store},
      m_file{std::move(file)},
      m_sheet{std::move(sheet)},
      m_date{std::move(date)},
      m_read{new QLabel},
      m_shape{new QComboBox},
      m_columns{new TallyColumns{m_sheet}},
      m_preview{new QTableWidget},
      m_rate{new QLineEdit},
      m_hitter{new QLineEdit},
      m_counted{new HabitChoice},
      m_questions{new TallyQuestions},
      m_message{new QLabel},
      m_progress{new QProgressBar} {
    setWindowTitle(tr("Import frame counts"));
    auto* layout = new QVBoxLayout{this};
    layout->addWidget(makeHead());
    layout->addWidget(makeTables(), 1);
    layout->addWidget(makeFacts());
    layout->addWidget(m_questions);
    layout->addWidget(makeFoot());
    connect(m_shape, &QComboBox::activated, this, &TallyDialog::chooseShape);
    connect(m_columns, &TallyColumns::changedByHand, this, &TallyDialog::refresh);
    connect(m_rate, &QLineEdit::textChanged, this, &TallyDialog::refresh);
    connect(m_hitter, &QLineEdit::textChanged, this, &TallyDialog::refresh);
    connect(m_questions, &TallyQuestions::decided, this, &TallyDialog::refresh);
    resize(980, 620);
    m_columns->setLayoutOfColumns(core::intake::proposeLayout(m_sheet));
    m_rate->setFocus();  // few tables say it
    refresh();
}

QWidget* TallyDialog::makeHead() {
    m_read->setObjectName(QStringLiteral("tally_read"));
    ui::style::showPlainWords(m_read);
    m_read->setText(tr("%1, read as %2, separated by %3")
                        .arg(QString::fromStdString(m_file.filename().string()),
                             qt(core::encodingName(m_sheet.encoding)),
                             separatorWords(m_sheet.separator)));
    m_read->setToolTip(
        tr("If letters look wrong below, save the table from the spreadsheet as CSV "
           "in UTF-8"));
    m_shape->setObjectName(QStringLiteral("tally_shape"));
    m_shape->setToolTip(tr("What a row is, as it was recognised; choose where it is not right"));
    for (const TallyShape shape : core::intake::kTallyShapes) {
        m_shape->addItem(qt(core::intake::shapeWords(shape)));
    }
    auto* head = new QWidget;
    auto* row = new QHBoxLayout{head};
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_read, 1);
    auto* label = new QLabel{tr("&Shape")};
    label->setBuddy(m_shape);
    row->addWidget(label);
    row->addWidget(m_shape);
    return head;
}

QWidget* TallyDialog::makeTables() {
    m_preview->setObjectName(QStringLiteral("tally_preview"));
    m_preview->setAccessibleName(tr("The first shots as they will be imported"));
    m_preview->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_preview->setSelectionMode(QAbstractItemView::NoSelection);
    m_preview->setTabKeyNavigation(false);
    m_preview->setShowGrid(false);
    m_preview->verticalHeader()->hide();
    m_preview->verticalHeader()->setDefaultSectionSize(
        style::heightFor(style::kRowHeightPx, m_preview->fontMetrics().height()));
    m_preview->horizontalHeader()->setHighlightSections(false);
    auto* split = new QSplitter{Qt::Horizontal};
    split->addWidget(titled(tr("What each column h&olds"), m_columns));
    split->addWidget(titled(tr("The first shots as they will be imported"), m_preview));
    split->setChildrenCollapsible(false);
    split->setSizes({430, 530});
    return split;
}

QWidget* TallyDialog::makeFacts() {
    m_rate->setObjectName(QStringLiteral("tally_rate"));
    m_rate->setPlaceholderText(tr("for rows that do not say it"));
    m_rate->setToolTip(tr("Frames per second that the camera took"));
    m_hitter->setObjectName(QStringLiteral("tally_hitter"));
    m_hitter->setPlaceholderText(tr("for rows that do not say it"));
    m_hitter->setToolTip(tr("Who hit, where the table does not say it"));
    auto* facts = new QWidget;
    auto* row = new QHBoxLayout{facts};
    row->setContentsMargins(0, 0, 0, 0);
    const auto add = [row](const QString& name, QWidget* field, int stretch) {
        auto* label = new QLabel{name};
        label->setBuddy(field);
        row->addWidget(label);
        row->addWidget(field, stretch);
    };
    add(tr("Capture &rate, per s"), m_rate, 1);
    add(tr("&Hitter"), m_hitter, 1);
    add(tr("&Counted"), m_counted, 0);
    return facts;
}

QWidget* TallyDialog::makeFoot() {
    m_message->setObjectName(QStringLiteral("tally_message"));
    ui::style::showPlainWords(m_message);
    m_progress->setObjectName(QStringLiteral("tally_progress"));
    m_progress->setRange(0, kProgressSteps);
    m_progress->setAccessibleName(tr("Progress of the import"));
    m_progress->hide();
    auto* buttons = new QDialogButtonBox{QDialogButtonBox::Cancel};
    m_import = buttons->addButton(tr("&Import"), QDialogButtonBox::AcceptRole);
    style::setRank(m_import, style::Rank::Primary);
    m_import->setObjectName(QStringLiteral("tally_import"));
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(buttons, &QDialogButtonBox::accepted, this, &TallyDialog::import);
    auto* foot = new QWidget;
    auto* row = new QHBoxLayout{foot};
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_message, 1);
    row->addWidget(m_progress, 1);
    row->addWidget(buttons);
    return foot;
}

void TallyDialog::chooseShape(int index) {
    const auto shape = core::intake::kTallyShapes.at(static_cast<std::size_t>(index));
    m_columns->setLayoutOfColumns(core::intake::proposeLayout(m_sheet, shape));
    refresh();
}

core::Result<core::intake::TallySource> TallyDialog::source() const {
    constexpr double kMostFps = 1e6;
    core::intake::TallySource source;
    BOOST_OUTCOME_TRY(fps, models::typedNumber(m_rate->text(), kMostFps));
    if (fps) {
        BOOST_OUTCOME_TRY(rate, core::timebase::captureRateFromDecimal(*fps));
        source.rate = rate;
    }
    source.hitter = m_hitter->text().trimmed().toStdString();
    source.habit = m_counted->habit();
    source.project = m_store.snapshot();
    source.marking = dayFor(*source.project, m_date).marking;
    m_questions->decide(source);
    return source;
}

core::Result<core::intake::Tally> TallyDialog::read(
    const core::Result<core::intake::TallySource>& source) const {
    return source ? core::intake::readTally(m_sheet, m_columns->layoutOfColumns(), source.value())
                  : core::Result<core::intake::Tally>{source.error()};
}

void TallyDialog::refresh() {
    m_shape->setCurrentIndex(static_cast<int>(core::intake::shapeOf(m_columns->layoutOfColumns())));
    const auto given = source();
    const auto tally = read(given);
    preview(tally ? tally.value() : core::intake::Tally{});
    if (tally) {
        m_questions->show(tally.value(), given.value());
    } else {
        m_questions->showNothing();
    }
    say(tally, given ? given.value() : core::intake::TallySource{});
}

void TallyDialog::preview(const core::intake::Tally& tally) {
    std::set<std::string> attributes;
    for (const auto& [implement, values] : tally.attributes) {
        for (const auto& [name, value] : values) {
            attributes.insert(name);
        }
    }
    QStringList headers{tr("Row"),    tr("Implement"), tr("Condition"),   tr("Hitter"),
                        tr("Frames"), tr("Turns"),     tr("Rate, per s"), tr("Spin, rpm")};
    for (const auto& name : attributes) {
        headers << QString::fromStdString(name);
    }
    const std::size_t rows = std::min(tally.shots.size(), kShotsShown);
    m_preview->clear();
    m_preview->setColumnCount(static_cast<int>(headers.size()));
    m_preview->setRowCount(static_cast<int>(rows));
    m_preview->setHorizontalHeaderLabels(headers);
    for (std::size_t i = 0; i < rows; ++i) {
        const auto& shot = tally.shots[i];
        int column = 0;
        const auto put = [this, i, &column](QTableWidgetItem* item) {
            m_preview->setItem(static_cast<int>(i), column++, item);
        };
        put(numberItem(QString::number(shot.row)));
        for (const auto& text : {shot.implement, shot.condition, shot.hitter}) {
            put(new QTableWidgetItem{QString::fromStdString(text)});
        }
        put(numberItem(QString::number(shot.frames)));
        put(numberItem(QString::number(shot.turns)));
        put(numberItem(models::numberText(shot.rate.fps.toDouble())));
        put(numberItem(QString::number(std::lround(shot.spin().rpm))));
        for (const auto& name : attributes) {
            put(new QTableWidgetItem{attributeOf(tally, shot, name)});
        }
    }
    m_preview->resizeColumnsToContents();
}

void TallyDialog::say(const core::Result<core::intake::Tally>& tally,
                      const core::intake::TallySource& source) {
    if (!tally) {
        m_message->setText(QString::fromStdString(tally.error().message));
        m_import->setEnabled(false);
        return;
    }
    const bool isHeldUp = !core::intake::whatHoldsUp(tally.value(), source).empty();
    const auto shots = tally.value().shots.size();
    QStringList said{isHeldUp
                         ? tr("Decide what is listed above first; until then nothing is imported.")
                         : tr("%1 will be imported.")
                               .arg(QString::fromStdString(core::counted(shots, "shot", "shots")))};
    for (const auto& remark : tally.value().remarks) {
        said << QString::fromStdString(remark);
    }
    m_message->setText(said.join(QLatin1Char(' ')));
    m_import->setEnabled(!isHeldUp && shots > 0);
}

void TallyDialog::import() {
    const auto given = source();
    const auto tally = read(given);
    if (!tally) {
        return;  // the fields say why, and the button is disabled
    }
    setCursor(Qt::WaitCursor);
    m_message->hide();
    m_progress->setValue(0);
    m_progress->show();
    // Painted at once: inside the edit no event may reach anything that uses the project.
    const auto showProgress = [this](double share) {
        m_progress->setValue(static_cast<int>(share * kProgressSteps));
        m_progress->repaint();
    };
    layout()->activate();
    showProgress(0.0);
    const std::string sentence = core::toKeep("Imported frame counts.");
    const auto done = m_store.together(sentence, [&]() -> core::Result<void> {
        auto day = dayFor(*m_store.snapshot(), m_date);
        if (day.id == core::project::SessionId{}) {
            BOOST_OUTCOME_TRY(added, m_store.addSession(day));
            day.id = added;
        }
        BOOST_OUTCOME_TRY(imported,
                          core::intake::importTally(m_store, day.id, m_file, tally.value(),
                                                    given.value(), showProgress));
        m_imported = imported;
        return core::ok();
    });
    unsetCursor();
    m_progress->hide();
    m_message->show();
    if (!done) {
        m_message->setText(QString::fromStdString(done.error().message));
        return;
    }
    accept();
}

}  // namespace ui::plan
