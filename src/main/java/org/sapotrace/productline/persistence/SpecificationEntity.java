package org.sapotrace.productline.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.productline.DatedSpecification;

/** One entry of a stream's specifications; written once, never changed. */
@Entity
@Table(name = "specification")
@NullUnmarked
class SpecificationEntity {

  @Embeddable
  record Key(@Column(name = "stream_id") UUID streamId, int number) {}

  @EmbeddedId Key key;

  @Column(name = "valid_from")
  LocalDate validFrom;

  Double lower;
  Double upper;

  @Column(name = "recorded_at")
  Instant recordedAt;

  static SpecificationEntity of(
      UUID stream, int number, DatedSpecification specification, Instant recordedAt) {
    SpecificationEntity entity = new SpecificationEntity();
    entity.key = new Key(stream, number);
    entity.validFrom = specification.from();
    Specification limits = specification.limits();
    entity.lower = limits == null ? null : limits.lower();
    entity.upper = limits == null ? null : limits.upper();
    entity.recordedAt = recordedAt;
    return entity;
  }

  DatedSpecification toSpecification() {
    Specification limits = lower == null && upper == null ? null : new Specification(lower, upper);
    return new DatedSpecification(limits, validFrom);
  }
}
