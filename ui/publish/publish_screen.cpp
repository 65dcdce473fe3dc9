#include "ui/publish/publish_screen.h"

#include <QBoxLayout>
#include <QCheckBox>
#include <QDesktopServices>
#include <QDir>
#include <QFormLayout>
#include <QGroupBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSettings>
#include <QUrl>

#include "core/base/words.h"
#include "core/publish/credits.h"
#include "core/publish/last_published.h"
#include "ui/publish/page_preview.h"
#include "ui/publish/point_list.h"
#include "ui/publish/tr.h"
#include "ui/style/ask.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/scrolled_down.h"
#include "ui/style/sign_label.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::publish {

using core::publish::Published;

namespace {

const QString kBlindSetting = QStringLiteral("publish/hide_hitters");
const QString kFilmsSetting = QStringLiteral("publish/films");
const QString kFolderSetting = QStringLiteral("publish/folder");
constexpr int kThreeCardsPx = 900;  // narrower: the cards stand in one column

QString keptFolder() {
    return QSettings{}.value(kFolderSetting).toString();
}

QString writtenText(const QString& folder, const Published& published) {
    QString text = tr("Published into %1. The page is index.html there.").arg(folder);
    for (const auto& remark : published.remarks) {
        text += QLatin1Char('\n') + QString::fromStdString(remark);
    }
    return text;
}

QString headline(std::size_t open) {
    if (open == 0) {
        return tr("Ready to publish");
    }
    return open == 1 ? tr("Ready, with 1 thing to settle first")
                     : tr("Ready, with %1 things to settle first").arg(open);
}

/// What would be published, and what was.
QString secondLine(const core::project::Snapshot& snapshot) {
    std::size_t kept = 0;
    for (const auto& shot : snapshot.shots) {
        kept += shot.standing == core::project::ShotStanding::Kept ? 1 : 0;
    }
    QStringList parts{QStringLiteral("%1, %2, %3.")
                          .arg(counted(snapshot.implements.size(), "implement", "implements"),
                               counted(snapshot.hitters.size(), "hitter", "hitters"),
                               counted(kept, "kept shot", "kept shots")),
                      tr("What stays open is printed on the page.")};
    if (const auto last = core::publish::lastPublished(snapshot)) {
        parts << tr("Last published on %1.").arg(QString::fromStdString(last->on));
    }
    return parts.join(QLatin1Char(' '));
}

QLineEdit* creditField(QLineEdit* field, const char* name, const QString& example,
                       const QString& tip) {
    field->setObjectName(QLatin1String{name});
    field->setPlaceholderText(example);
    field->setToolTip(tip);
    return field;
}

QWidget* writtenRow(style::Sign sign, const QString& what, const QString& more,
                    const QString& file) {
    auto* title = new QLabel{what};
    style::showPlainWords(title);
    style::setTextSize(title, style::TextSize::Body, style::Weight::Strong);
    auto* words = new QVBoxLayout;
    words->setSpacing(0);
    words->addWidget(title);
    for (const QString& line : {more, file}) {
        auto* label = new QLabel{line};
        style::showPlainWords(label);
        label->setForegroundRole(QPalette::PlaceholderText);
        style::setTextSize(label, style::TextSize::Small);
        words->addWidget(label);
    }
    auto* row = new QWidget;
    auto* layout = new QHBoxLayout{row};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(new style::SignLabel{sign, style::Token::Ink}, 0, Qt::AlignTop);
    layout->addLayout(words, 1);
    return row;
}

QLabel* quietWords(const QString& text) {
    auto* label = new QLabel{text};
    style::showPlainWords(label);
    label->setForegroundRole(QPalette::PlaceholderText);
    return label;
}

}  // namespace

PublishScreen::PublishScreen(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_jobs{jobs},
      m_answer{new QLabel},
      m_second{quietWords({})},
      m_folderName{new QLabel},
      m_change{new QPushButton{tr("Change…")}},
      m_publish{new QPushButton},
      m_words{new QLabel},
      m_openPage{new QPushButton{tr("Open the page")}},
      m_showFolder{new QPushButton{tr("Show the folder")}},
      m_points{new PointList},
      m_blind{new QCheckBox{tr("Hide the na&mes of the hitters")}},
      m_films{new QCheckBox{tr("A slow &film of each shot")}},
      m_author{new QLineEdit},
      m_licence{new QLineEdit},
      m_citeAs{new QLineEdit},
      m_preview{new PagePreview} {
    auto* cards = new QWidget;
    m_cards = new QBoxLayout{QBoxLayout::LeftToRight, cards};
    m_cards->setContentsMargins(0, 0, 0, 0);
    m_cards->setSpacing(style::kCardsPx);
    auto* left = new QWidget;
    auto* settled = new QVBoxLayout{left};
    settled->setContentsMargins(0, 0, 0, 0);
    settled->setSpacing(style::kCardsPx);
    settled->addWidget(makeOpen());
    settled->addWidget(makeCredits());
    settled->addStretch(1);
    constexpr int kPageShare = 4;
    constexpr int kOtherShare = 3;
    for (QWidget* card : std::initializer_list<QWidget*>{left, makeWritten(), m_preview}) {
        card->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
        m_cards->addWidget(card, card == m_preview ? kPageShare : kOtherShare, Qt::AlignTop);
    }
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(style::kPagePx, style::kCardsPx, style::kPagePx, style::kCardsPx);
    layout->setSpacing(style::kCardsPx);
    layout->addWidget(makeHead());
    layout->addWidget(makeDone());
    layout->addWidget(new style::ScrolledDown{cards}, 1);
    connectAll();
    m_listening = m_store.listen([this](const core::project::Store::Change&) {
        showCredits();
        if (isVisible()) {
            refresh();
        }
    });
    showCredits();
    refresh();
    style::whenFontChanges(this, [this] { fitCards(); });
}

PublishScreen::~PublishScreen() = default;

QWidget* PublishScreen::makeHead() {
    m_answer->setObjectName(QStringLiteral("answer"));
    style::showPlainWords(m_answer);
    style::setTextSize(m_answer, style::TextSize::Head, style::Weight::Strong);
    m_folderName->setObjectName(QStringLiteral("publish_folder"));
    m_folderName->setTextFormat(Qt::PlainText);
    style::setRank(m_change, style::Rank::Quiet);
    m_change->setObjectName(QStringLiteral("publish_change"));
    m_change->setToolTip(tr("Chooses another folder"));
    m_publish->setObjectName(QStringLiteral("publish"));
    style::setRank(m_publish, style::Rank::Primary);
    auto* words = new QVBoxLayout;
    words->setSpacing(0);
    words->addWidget(m_answer);
    words->addWidget(m_second);
    auto* head = new QWidget;
    auto* row = new QHBoxLayout{head};
    row->setContentsMargins(0, 0, 0, 0);
    row->addLayout(words, 1);
    row->addWidget(m_folderName);
    row->addWidget(m_change);
    row->addWidget(m_publish);
    return head;
}

QWidget* PublishScreen::makeDone() {
    m_words->setObjectName(QStringLiteral("published"));
    style::showPlainWords(m_words);
    m_words->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_openPage->setObjectName(QStringLiteral("open_page"));
    m_openPage->setToolTip(tr("Shows the published page in the browser"));
    m_showFolder->setObjectName(QStringLiteral("show_folder"));
    m_showFolder->setToolTip(tr("Shows the published files"));
    m_done = new QWidget;
    auto* row = new QHBoxLayout{m_done};
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_words, 1);
    row->addWidget(m_openPage, 0, Qt::AlignTop);
    row->addWidget(m_showFolder, 0, Qt::AlignTop);
    m_done->hide();
    return m_done;
}

QGroupBox* PublishScreen::makeOpen() {
    auto* card = new QGroupBox{tr("Before others see it")};
    auto* layout = new QVBoxLayout{card};
    layout->addWidget(m_points);
    layout->addWidget(quietWords(
        tr("The page says: it describes the specimens and hitters that were filmed. Whether an "
           "implement is legal to play with is for the governing body to say.")));
    return card;
}

QGroupBox* PublishScreen::makeWritten() {
    using style::Sign;
    auto* card = new QGroupBox{tr("What is written")};
    auto* layout = new QVBoxLayout{card};
    layout->setSpacing(style::kCardsPx);
    layout->addWidget(writtenRow(Sign::Publish, tr("A page for any browser"),
                                 tr("table, chart, frame strips, method"),
                                 QStringLiteral("index.html")));
    layout->addWidget(writtenRow(Sign::Print, tr("The same on paper"), tr("one PDF"),
                                 QStringLiteral("findings.pdf")));
    layout->addWidget(writtenRow(Sign::Plan, tr("Tables and a workbook"),
                                 tr("with a description of every column"),
                                 QStringLiteral("*.csv, findings.xlsx, findings.json")));
    layout->addWidget(writtenRow(Sign::Findings, tr("Every figure"), tr("as SVG and PNG"),
                                 QStringLiteral("figures")));
    m_blind->setToolTip(tr("H1, H2 … stand for them in every file"));
    m_films->setToolTip(tr("MP4 with the turns counted; takes a few seconds a shot"));
    layout->addWidget(m_blind);
    layout->addWidget(m_films);
    m_files = quietWords({});
    m_files->setObjectName(QStringLiteral("preview_files"));
    layout->addWidget(m_files);
    layout->addWidget(
        quietWords(tr("Files in the folder that Turnmark did not write are left alone.")));
    const QSettings settings;
    m_blind->setChecked(settings.value(kBlindSetting).toBool());
    m_films->setChecked(settings.value(kFilmsSetting).toBool());
    return card;
}

QGroupBox* PublishScreen::makeCredits() {
    auto* card = new QGroupBox{tr("Author and terms")};
    auto* form = new QFormLayout{card};
    form->setRowWrapPolicy(QFormLayout::WrapAllRows);
    form->addRow(tr("A&uthor"), creditField(m_author, "author", tr("who answers for the findings"),
                                            tr("Stands on the page and in the tables")));
    form->addRow(tr("&Licence"), creditField(m_licence, "licence", tr("for example: CC BY 4.0"),
                                             tr("On what terms others may use the files")));
    form->addRow(tr("&Cite as"),
                 creditField(m_citeAs, "cite_as", tr("for example: Club tests, May 2026"),
                             tr("How others name this publication")));
    return card;
}

void PublishScreen::connectAll() {
    connect(m_blind, &QCheckBox::toggled, this, [this](bool on) {
        QSettings{}.setValue(kBlindSetting, on);
        refreshPreview();
    });
    connect(m_films, &QCheckBox::toggled, this, [this](bool on) {
        QSettings{}.setValue(kFilmsSetting, on);
        refreshPreview();
    });
    connect(m_publish, &QPushButton::clicked, this, &PublishScreen::publishHere);
    connect(m_change, &QPushButton::clicked, this, [this] { chooseFolder([] {}); });
    connect(m_openPage, &QPushButton::clicked, this,
            [this] { openFile(m_folder + QStringLiteral("/index.html")); });
    connect(m_showFolder, &QPushButton::clicked, this, [this] { openFile(m_folder); });
    connect(m_points, &PointList::wayChosen, this, &PublishScreen::wayChosen);
    for (auto* field : {m_author, m_licence, m_citeAs}) {
        connect(field, &QLineEdit::editingFinished, this, &PublishScreen::keepCredits);
    }
}

void PublishScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
    Q_EMIT visibilityChanged(true);
}

void PublishScreen::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    Q_EMIT visibilityChanged(false);
}

void PublishScreen::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitCards();
}

void PublishScreen::fitCards() {
    const bool isNarrow = width() < kThreeCardsPx * style::textScale();
    m_cards->setDirection(isNarrow ? QBoxLayout::TopToBottom : QBoxLayout::LeftToRight);
    refreshFolder();
}

void PublishScreen::setDoubts(core::doubts::DoubtsPtr doubts) {
    m_doubts = std::move(doubts);
    if (isVisible()) {
        refresh();
    }
}

void PublishScreen::refresh() {
    const auto snapshot = m_store.snapshot();
    const bool isNewest = m_doubts && m_doubts->revision == snapshot->revision;
    const auto points = openPoints(*snapshot, isNewest ? m_doubts.get() : nullptr);
    m_points->show(points);
    const bool hasKept = std::any_of(
        snapshot->shots.begin(), snapshot->shots.end(),
        [](const auto& shot) { return shot.standing == core::project::ShotStanding::Kept; });
    m_answer->setText(hasKept ? headline(countOpen(points)) : tr("Nothing to publish yet"));
    m_second->setText(hasKept ? secondLine(*snapshot)
                              : tr("Keep the first shots in Reading; every kept shot "
                                   "enters the findings at once."));
    m_publish->setEnabled(hasKept && !m_isPublishing);
    refreshFolder();
    refreshPreview();
}

void PublishScreen::refreshFolder() {
    const QString folder = keptFolder();
    m_publish->setText(folder.isEmpty() ? tr("Publish into a folder…") : tr("Publish here"));
    m_publish->setShortcut(QKeySequence{Qt::CTRL | Qt::Key_P});  // new words take it away
    m_publish->setToolTip(folder.isEmpty() ? tr("Asks for the folder (Ctrl+P)")
                                           : tr("Writes into %1 (Ctrl+P)").arg(folder));
    m_change->setVisible(!folder.isEmpty());
    m_folderName->setVisible(!folder.isEmpty());
    m_folderName->setText(m_folderName->fontMetrics().elidedText(
        QDir::toNativeSeparators(folder), Qt::ElideLeft, std::max(120, width() / 4)));
    m_folderName->setToolTip(folder);
}

void PublishScreen::chooseFolder(std::function<void()> then) {
    const QString beside = QString::fromStdString(m_store.file().parent_path().string());
    style::askWhereToWrite(
        *this, {tr("Folder to publish into"), keptFolder().isEmpty() ? beside : keptFolder()},
        [this, then = std::move(then)](const QString& folder) {
            QSettings{}.setValue(kFolderSetting, folder);
            refreshFolder();
            then();
        });
}

void PublishScreen::publishHere() {
    const auto publish = [this] { publishTo(keptFolder()); };
    if (keptFolder().isEmpty()) {
        chooseFolder(publish);
    } else {
        publish();
    }
}

void PublishScreen::showCredits() {
    const auto credits = core::publish::creditsOf(*m_store.snapshot());
    const auto fill = [](QLineEdit* field, const std::string& text) {
        if (!field->isModified()) {
            field->setText(QString::fromStdString(text));
        }
    };
    fill(m_author, credits.author);
    fill(m_licence, credits.licence);
    fill(m_citeAs, credits.citeAs);
}

void PublishScreen::keepCredits() {
    if (!m_author->isModified() && !m_licence->isModified() && !m_citeAs->isModified()) {
        return;
    }
    const auto kept = core::publish::keepCredits(
        m_store, {m_author->text().toStdString(), m_licence->text().toStdString(),
                  m_citeAs->text().toStdString()});
    if (!kept) {
        say(QString::fromStdString(kept.error().message));
        return;
    }
    for (auto* field : {m_author, m_licence, m_citeAs}) {
        field->setModified(false);
    }
    showCredits();
}

void PublishScreen::publishTo(const QString& folder) {
    keepCredits();
    const auto options = this->options();
    auto material = core::publish::gather(m_store, options.films);
    if (!material) {
        say(QString::fromStdString(material.error().message));
        return;
    }
    m_isPublishing = true;
    m_publish->setEnabled(false);
    m_jobs.start<Published>(
        tr("Publishing"),
        [material = std::move(material).value(), options,
         path = std::filesystem::path{folder.toStdString()}](bridge::JobContext& context) {
            return core::publish::publish(material, path, options, context.stopToken(),
                                          [&context](double share, const std::string& doing) {
                                              context.report(share, QString::fromStdString(doing));
                                          });
        },
        this,
        [this, folder](const core::Result<Published>& published) { comeHome(folder, published); });
}

void PublishScreen::comeHome(const QString& folder, const core::Result<Published>& published) {
    m_isPublishing = false;
    if (!published) {
        refresh();
        say(QString::fromStdString(published.error().message));
        return;
    }
    m_folder = folder;
    const auto noted = core::publish::noteLastPublished(
        m_store, {core::publish::today(), published.value().fingerprint, folder.toStdString()});
    refresh();
    QString text = writtenText(folder, published.value());
    if (!noted) {
        text += QLatin1Char('\n') + QString::fromStdString(noted.error().message);
    }
    say(text);
    Q_EMIT this->published();
}

void PublishScreen::openFile(const QString& file) {
    if (!QDesktopServices::openUrl(QUrl::fromLocalFile(file))) {
        say(tr("No program of this computer opens %1. Open it by hand.").arg(file));
    }
}

void PublishScreen::say(const QString& text) {
    m_words->setText(text);
    m_done->setVisible(!text.isEmpty());
    m_openPage->setVisible(!m_folder.isEmpty());
    m_showFolder->setVisible(!m_folder.isEmpty());
    Q_EMIT said(text);
}

}  // namespace ui::publish
