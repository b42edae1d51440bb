package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.attribution.Attribution;
import org.sapotrace.attribution.Cause;
import org.sapotrace.attribution.Evidence;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.attribution.Evidence.Place;
import org.sapotrace.attribution.Evidence.Result;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.BatchRemoval;
import org.sapotrace.bench.Figure;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.productline.Line;

/** Lots that are standardised anew, and that take each other's place. */
class LotsTest {

  private static final Instant CHANGE = Instant.parse("2026-03-10T00:00:00Z");
  private static final Series.Window WINDOW = window(CHANGE);
  private static final Line LINE =
      new Line("sodium", "Sodium line", Alkali.SODIUM, null, null, null, 1);
  private static final UsedTitrant STRONG = new UsedTitrant("hcl", 0.0100, 2e-5, false);
  private static final UsedTitrant WEAK = new UsedTitrant("hcl", 0.0090, 2e-5, false);
  private static final UsedTitrant OTHER = new UsedTitrant("new", 0.0102, 2e-5, false);
  private static final double FELL = Math.log(0.9);

  private static Series.Window window(Instant change) {
    return new Series.Window(
        CHANGE.minus(Duration.ofDays(90)), change, CHANGE.plus(Duration.ofDays(2)), null);
  }

  @Test
  void areToldApartByWhatTheyAreTakenFor() {
    RecordedResult later = titrated(2, WEAK);
    assertThat(Lots.moving(titrated(1, STRONG), LINE)).isNotEqualTo(Lots.moving(later, LINE));
    String titrant = Lots.titrant(WEAK);
    assertThat(Lots.moving(later, LINE)).isEqualTo(Result.titratedWith(titrant));
    assertThat(Lots.lot(titrant)).isEqualTo("hcl");
  }

  @Test
  void moveNoResultThatWasRestated() {
    RecordedResult restated = titrated(3, new UsedTitrant("hcl", 0.0096, 2e-5, true));
    assertThat(Lots.moving(restated, LINE)).isEmpty();
    assertThat(Strength.of(List.of(restated))).isEmpty();
  }

  @Test
  void areOneOfALineWhereNoneIsOnRecord() {
    Map<String, Integer> typed = Lots.moving(titrated(4, null), LINE);
    assertThat(typed).hasSize(1);
    assertThat(Lots.lot(typed.keySet().iterator().next())).isEmpty();
  }

  @Test
  void cancelInARatioOnlyWhereTheyAreTheSame() {
    Map<String, Integer> own = Result.titratedWith("hcl");
    assertThat(Result.ratio(own, own)).isEmpty();
    assertThat(Result.ratio(own, Result.titratedWith("other")))
        .isEqualTo(Map.of("hcl", 1, "other", -1));
    assertThat(Result.ratio(own, Map.of())).isEqualTo(own);
  }

  /** Right at first, and 10 % too weak when it was standardised again while it was in use. */
  @Test
  void areComparedWithWhatTheyWereTakenFor() {
    Strength used = Strength.of(List.of(titrated(-10, STRONG), titrated(4, STRONG))).get(0);
    List<Series> series =
        used.series(
            List.of(found(-60, 0.0101), found(-20, 0.0100), found(5, 0.0090), found(9, 0.0088)),
            WINDOW,
            CHANGE.minusSeconds(1));
    assertThat(series.stream().map(Series::kind))
        .containsExactly(Kind.STANDARDISATION, Kind.EARLIER_STANDARDISATION);
    assertThat(values(series.get(0)))
        .satisfiesExactly(
            begun -> assertThat(begun).isZero(),
            fell -> assertThat(fell).isCloseTo(FELL, within(1e-12)));
    assertThat(values(series.get(1))).containsOnly(0.0);
  }

  /** Taken for its nominal normality, and found otherwise between two samples. */
  @Test
  void thatAreStandardisedAtTheChangeAreBehindIt() {
    List<RecordedResult> results = exchanged(WEAK, 36, STRONG, 40);
    Map<String, List<RecordedResult>> found = Map.of("hcl", List.of(found(0, 0.0100)));
    Attribution attribution = attribution(results, found, WINDOW);
    assertThat(attribution.cause()).as(attribution.toString()).isEqualTo(Cause.TITRANT);
    assertThat(attribution.shift()).isCloseTo(-FELL, within(0.01));
  }

  /** The same where nobody knows since when it was off, and where the chart is a sample early. */
  @ParameterizedTest
  @ValueSource(ints = {-2, -1, 0})
  void thatAreStandardisedAtTheChangeAreNoFeed(int dayOfChart) {
    List<RecordedResult> results = exchanged(WEAK, 36, STRONG, 40);
    Map<String, List<RecordedResult>> found =
        Map.of("hcl", List.of(found(-45, 0.0090), found(0, 0.0100)));
    Attribution attribution =
        attribution(results, found, window(CHANGE.plusSeconds(dayOfChart * 86_400L)));
    assertThat(attribution.cause()).as(attribution.toString()).isEqualTo(Cause.UNDECIDED);
  }

  /** The old lot was 15 % off when the rest of it was standardised, days after its use. */
  @ParameterizedTest
  @ValueSource(ints = {0, 5})
  void areKnownByWhatWasFoundAfterTheirUse(int dayFound) {
    List<RecordedResult> results = exchanged(STRONG, 40, OTHER, 34);
    Map<String, List<RecordedResult>> found =
        Map.of(
            "hcl",
            List.of(found(-45, 0.0100), found(dayFound, 0.0085)),
            "new",
            List.of(found(0, 0.0102)));
    Attribution attribution = attribution(results, found, WINDOW);
    assertThat(attribution.cause()).as(attribution.toString()).isEqualTo(Cause.UNDECIDED);
  }

  /** Standardised as it came into use, and diluted on its way to the burette. */
  @Test
  void areFollowedFromWhatTheyWereTakenFrom() {
    List<RecordedResult> results = exchanged(STRONG, 40, OTHER, 50);
    Map<String, List<RecordedResult>> found =
        Map.of(
            "hcl",
            List.of(found(-45, 0.0100), found(-20, 0.0100)),
            "new",
            List.of(found(0, 0.0102), found(12, 0.0102 / 1.25)));
    Attribution attribution = attribution(results, found, WINDOW);
    assertThat(attribution.cause()).as(attribution.toString()).isEqualTo(Cause.TITRANT);
  }

  /** Both lots are known, so that what rose at their exchange is the feed. */
  @Test
  void thatAreBothKnownAreNotBehindAChange() {
    List<RecordedResult> results = exchanged(STRONG, 40, OTHER, 54);
    Map<String, List<RecordedResult>> found =
        Map.of("hcl", List.of(found(-40, 0.0100)), "new", List.of(found(0, 0.0102)));
    Attribution attribution = attribution(results, found, WINDOW);
    assertThat(attribution.cause()).as(attribution.toString()).isEqualTo(Cause.FEED);
    assertThat(attribution.shift()).isCloseTo(Math.log(54 / 40.0), within(0.01));
  }

  /** One titrant and what it finds up to the change, another and what that finds behind it. */
  private static List<RecordedResult> exchanged(
      UsedTitrant before, double level, UsedTitrant behind, double levelBehind) {
    List<RecordedResult> results = new ArrayList<>();
    for (int day = -30; day < 12; day++) {
      results.add(titrated(day, day < 0 ? before : behind, day < 0 ? level : levelBehind));
    }
    return results;
  }

  /** What is behind the shift of a crude. */
  private static Attribution attribution(
      List<RecordedResult> results,
      Map<String, List<RecordedResult>> standardisations,
      Series.Window window) {
    Place place = new Place("sodium", "crude");
    List<Evidence> all = new ArrayList<>();
    new Titrated(Kind.CRUDE, results, LINE).in(window).evidence(place).ifPresent(all::add);
    Instant unmoved = window.change().minusSeconds(86_400);
    for (Strength strength : Strength.of(results)) {
      strength
          .series(standardisations.get(strength.used().lot()), window, unmoved)
          .forEach(series -> series.evidence(Place.NONE).ifPresent(all::add));
    }
    return Attribution.of(all.get(0), 20, all, 0.01);
  }

  private static List<Double> values(Series series) {
    return series.points().stream().map(Series.Point::value).toList();
  }

  private static RecordedResult titrated(int day, @Nullable UsedTitrant titrant) {
    return titrated(day, titrant, 40);
  }

  /** A result that scatters by 2 % to either side. */
  private static RecordedResult titrated(int day, @Nullable UsedTitrant titrant, double value) {
    return recorded(day, titrant, value * (day % 2 == 0 ? 1.02 : 0.98));
  }

  // An hour before the sample of the day.
  private static RecordedResult found(int day, double normality) {
    RecordedResult result = recorded(day, null, normality);
    Instant at = result.sampledAt().minusSeconds(3600);
    return new RecordedResult(result.id(), result.stream(), "", at, result.revisions());
  }

  private static RecordedResult recorded(int day, @Nullable UsedTitrant titrant, double value) {
    Instant at = CHANGE.plusSeconds(day * 86_400L);
    UUID id = new UUID(0, day + 1000);
    Figure figure =
        new Figure(
            value,
            "",
            value / 200,
            null,
            null,
            null,
            List.of(value),
            null,
            List.of(),
            null,
            null,
            null);
    RecordedResult.Revision only =
        new RecordedResult.Revision(
            1,
            at,
            null,
            false,
            new BatchRemoval("K-1", at, id, id),
            new Assessment(figure, false, null, titrant, List.of()));
    return new RecordedResult(id, id, "K-1", at, List.of(only));
  }
}
