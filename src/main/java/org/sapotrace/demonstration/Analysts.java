package org.sapotrace.demonstration;

import java.time.LocalTime;
import java.util.List;

/** Who titrates what, by their initials. */
final class Analysts {

  /** The one who reads high until somebody shows why. */
  static final String NEW = "tw";

  /** The day on which the new one has joined. */
  private static final int JOINED = Fault.ANALYST.first() - 2;

  private static final List<String> FOUR = List.of("an", "ko", "mh", "rb");

  /** How often the new one titrates the check standard. */
  private static final int TURN = 3;

  private Analysts() {}

  /** Whoever is there, each of whom titrates the sample of a comparison. */
  static List<String> all(int day) {
    return day < JOINED ? FOUR : List.of(FOUR.get(0), FOUR.get(1), FOUR.get(2), FOUR.get(3), NEW);
  }

  /** Whose turn it is: the new one begins with check standards, the others change by the day. */
  static String of(Place place, Product line, int day) {
    boolean isNewOnes = place == Place.CHECK && day >= JOINED && day / 2 % TURN == 0;
    LocalTime time = place.time(line);
    int turn = day + time.getHour() + time.getMinute() / 15;
    return isNewOnes ? NEW : FOUR.get(turn % FOUR.size());
  }

  /** By how many mL somebody reads too much. */
  static double tooMuch(String analyst, int day) {
    return analyst.equals(NEW) ? Fault.ANALYST.step(day) : 0;
  }
}
