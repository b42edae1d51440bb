package org.sapotrace.capability;

/** On which side of the results a specification limit lies. */
enum Tail {
  HIGH(+1),
  LOW(-1);

  private final int sign;

  Tail(int sign) {
    this.sign = sign;
  }

  int sign() {
    return sign;
  }
}
