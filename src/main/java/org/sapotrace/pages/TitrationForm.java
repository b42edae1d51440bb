package org.sapotrace.pages;

import static org.sapotrace.pages.TitrationFields.ANALYST;
import static org.sapotrace.pages.TitrationFields.BALANCE;
import static org.sapotrace.pages.TitrationFields.BLANK;
import static org.sapotrace.pages.TitrationFields.GLASSWARE;
import static org.sapotrace.pages.TitrationFields.LOT;
import static org.sapotrace.pages.TitrationFields.NORMALITY;
import static org.sapotrace.pages.TitrationFields.NORMALITY_UNCERTAINTY;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Readings;
import org.sapotrace.bench.Titration;
import org.sapotrace.productline.Measurand;

/** The form of a titration: sample, titrant, and as many titrations as there is room for. */
public final class TitrationForm extends EntryForm {

  static final int USUAL = 2;

  /** More fields than those of so many the server would not take. */
  static final int MOST = 30;

  private final Measurand measurand;
  private final int titrations;
  private final List<Field.Option> lots;
  private List<Integer> numbersRead = List.of();

  /**
   * A form with what was typed into it.
   *
   * @param titrations how many it has room for
   * @param lots the titrant lots on record, to be reminded of
   */
  TitrationForm(
      Typed typed,
      Measurand measurand,
      SampleFields sample,
      int titrations,
      List<Field.Option> lots) {
    super(typed, sample);
    this.measurand = measurand;
    this.lots = List.copyOf(lots);
    this.titrations = Math.max(1, Math.min(MOST, titrations));
  }

  /**
   * One titration.
   *
   * @param readings what every titration needs
   * @param otherwise what may stand in place of it
   */
  public record Run(int number, List<Field> readings, List<Field> otherwise) {

    /** Whether the fields that are seldom used are shown. */
    public boolean isWide() {
      return otherwise.stream().anyMatch(field -> !field.isEmpty() || field.isFaulty());
    }
  }

  /** Fills in what is on record of a titration. */
  static void fill(Typed typed, Titration titration, SampleFields sample) {
    sample.fill(typed, titration.batch(), titration.sampledAt());
    fillTitrant(typed, titration);
    List<Readings.Replicate> replicates = titration.readings().replicates();
    for (int i = 0; i < replicates.size(); i++) {
      Readings.Replicate run = replicates.get(i);
      int number = i + 1;
      typed.put(TitrationFields.of(number, "titrantMl"), run.titrantMl());
      typed.put(TitrationFields.of(number, "initialMl"), run.initialMl());
      typed.put(TitrationFields.of(number, "finalMl"), run.finalMl());
      typed.put(TitrationFields.of(number, "freeAlkaliMl"), run.freeAlkaliMl());
      typed.put(TitrationFields.of(number, "sampleG"), run.sampleG());
      typed.put(TitrationFields.of(number, "sampleMl"), run.sampleMl());
      typed.put(TitrationFields.of(number, "sampleC"), run.sampleC());
    }
  }

  /** Fills in what stays the same from one sample to the next. */
  static void fillTitrant(Typed typed, Titration titration) {
    Readings readings = titration.readings();
    typed.put(ANALYST, titration.analyst());
    typed.put(LOT, readings.titrant().lot());
    typed.put(NORMALITY, readings.titrant().normality());
    typed.put(NORMALITY_UNCERTAINTY, readings.titrant().standardUncertainty());
    typed.put(BLANK, readings.blankMl());
    typed.put(GLASSWARE, readings.glassware());
    typed.put(BALANCE, readings.balance());
  }

  public List<Field> titrant() {
    return TitrationFields.titrant(measurand, lots).stream()
        .map(field -> field.filled(typed()))
        .toList();
  }

  public List<Run> runs() {
    return IntStream.rangeClosed(1, titrations).mapToObj(this::run).toList();
  }

  private Run run(int number) {
    return new Run(
        number,
        TitrationFields.readings(number, measurand).stream()
            .map(field -> field.filled(typed()))
            .toList(),
        TitrationFields.otherwise(number).stream().map(field -> field.filled(typed())).toList());
  }

  public boolean hasRoomForMore() {
    return titrations < MOST;
  }

  public int titrations() {
    return titrations;
  }

  @Override
  Stream<Field> fieldsOfEntry() {
    return Stream.of(
            titrant().stream(),
            runs().stream()
                .flatMap(run -> Stream.concat(run.readings.stream(), run.otherwise.stream())))
        .flatMap(each -> each);
  }

  @Override
  int numberOf(int index) {
    return index < numbersRead.size() ? numbersRead.get(index) : index + 1;
  }

  @Override
  @Nullable Titration read() {
    Typed typed = typed();
    String batch = SampleFields.batch(typed);
    Instant sampledAt = sampleFields().sampledAt(typed);
    String analyst = typed.optional(ANALYST, 100);
    Readings.Titrant titrant = readTitrant();
    Double blank = measurand == Measurand.FREE_ALKALI ? null : typed.number(BLANK);
    String glassware = typed.optional(GLASSWARE, 63);
    String balance = typed.optional(BALANCE, 63);
    List<Readings.Replicate> replicates = readRuns();
    if (typed.isFaulty() || sampledAt == null) {
      return null;
    }
    return new Titration(
        batch,
        sampledAt,
        analyst,
        new Readings(titrant, blank, glassware, balance, replicates),
        null,
        null);
  }

  private Readings.Titrant readTitrant() {
    Typed typed = typed();
    String lot = typed.optional(LOT, 63);
    Double normality = typed.number(NORMALITY);
    Double uncertainty = typed.number(NORMALITY_UNCERTAINTY);
    if (lot != null && (typed.has(NORMALITY) || typed.has(NORMALITY_UNCERTAINTY))) {
      typed.fault(LOT, "The record says what a lot is worth: name the lot, or give a normality.");
    } else if (lot == null && !typed.has(NORMALITY)) {
      typed.fault(NORMALITY, "Name the lot above, or give the normality on the bottle.");
    }
    return new Readings.Titrant(lot, normality, uncertainty);
  }

  /** Of those titrations of which anything was typed. */
  private List<Readings.Replicate> readRuns() {
    List<Integer> numbers = new ArrayList<>();
    List<Readings.Replicate> replicates = new ArrayList<>();
    for (Run run : runs()) {
      boolean isUsed =
          Stream.concat(run.readings.stream(), run.otherwise.stream())
              .anyMatch(field -> !field.isEmpty());
      if (isUsed) {
        numbers.add(run.number);
        replicates.add(new TypedRun(typed(), run.number).read());
      }
    }
    if (numbers.isEmpty()) {
      typed().fault(TitrationFields.of(1, "titrantMl"), "Give the readings of one titration.");
    }
    numbersRead = numbers;
    return replicates;
  }
}
