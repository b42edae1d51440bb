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
  private static final Series.Window WINDOW =
      new Series.Window(CHANGE.minus(Duration.ofDays(90)), CHANGE, null);
  private static final Line LINE =
      new Line("sodium", "Sodium line", Alkali.SODIUM, null, null, null, 1);
  private static final UsedTitrant STRONG = new UsedTitrant("hcl", 0.0100, 2e-5, false);
  private static final UsedTitrant WEAK = new UsedTitrant("hcl", 0.0090, 2e-5, false);
  private static final UsedTitrant OTHER = new UsedTitrant("new", 0.0102, 2e-5, false);
  private static final double FELL = Math.log(0.9);

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

  /** Found to be stronger than it was taken for, between two samples: the figures rise. */
  @Test
  void thatAreStandardisedAtTheChangeAreBehindIt() {
    List<RecordedResult> results = new ArrayList<>();
    for (int day = -30; day < 12; day++) {
      results.add(titrated(day, day < 0 ? WEAK : STRONG, day < 0 ? 36 : 40));
    }
    Attribution found = attribution(results, Map.of("hcl", List.of(found(0, 0.0100))));
    assertThat(found.cause()).as(found.toString()).isEqualTo(Cause.TITRANT);
    assertThat(found.shift()).isCloseTo(-FELL, within(0.01));
  }

  /** Both lots are known, so that what rose at their exchange is the feed. */
  @Test
  void thatAreBothKnownAreNotBehindAChange() {
    List<RecordedResult> results = new ArrayList<>();
    for (int day = -30; day < 12; day++) {
      results.add(titrated(day, day < 0 ? STRONG : OTHER, day < 0 ? 40 : 54));
    }
    Attribution found =
        attribution(
            results, Map.of("hcl", List.of(found(-40, 0.0100)), "new", List.of(found(0, 0.0102))));
    assertThat(found.cause()).as(found.toString()).isEqualTo(Cause.FEED);
    assertThat(found.shift()).isCloseTo(Math.log(54 / 40.0), within(0.01));
  }

  /** What is behind the shift of a crude, of which blanks are known. */
  private static Attribution attribution(
      List<RecordedResult> results, Map<String, List<RecordedResult>> standardisations) {
    Place place = new Place("sodium", "crude");
    List<Evidence> all = new ArrayList<>();
    new Titrated(Kind.CRUDE, results, LINE).in(WINDOW).evidence(place).ifPresent(all::add);
    for (Strength strength : Strength.of(results)) {
      strength
          .series(standardisations.get(strength.used().lot()), WINDOW, CHANGE.minusSeconds(86_400))
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
