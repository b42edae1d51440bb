package org.sapotrace.productline.persistence;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.Deed;
import org.sapotrace.ledger.Ledger;
import org.sapotrace.ledger.StreamNames;
import org.sapotrace.productline.DatedSpecification;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.RecordIdentifier;
import org.sapotrace.productline.Stream;
import org.sapotrace.productline.Streams;

@ApplicationScoped
class StreamsInPostgres implements Streams, StreamNames, PanacheRepositoryBase<StreamEntity, UUID> {

  private static final String REMOVALS =
      "line = ?1 and outlet is not null and inlet is not null and (inlet = ?2 or outlet = ?2)";

  private final EntityManager entities;
  private final Ledger ledger;

  StreamsInPostgres(EntityManager entities, Ledger ledger) {
    this.entities = entities;
    this.ledger = ledger;
  }

  @Override
  public Optional<Line> line(String slug) {
    return Optional.ofNullable(entities.find(LineEntity.class, slug)).map(LineEntity::toLine);
  }

  @Override
  public Optional<Line> lockLine(String slug) {
    return Optional.ofNullable(
            entities.find(LineEntity.class, slug, LockModeType.PESSIMISTIC_WRITE))
        .map(LineEntity::toLine);
  }

  @Override
  public List<Line> linesAfter(String slugExclusive, int most) {
    return entities
        .createQuery("from LineEntity where slug > :after order by slug", LineEntity.class)
        .setParameter("after", slugExclusive)
        .setMaxResults(most)
        .getResultList()
        .stream()
        .map(LineEntity::toLine)
        .toList();
  }

  @Override
  public boolean addIfAbsent(Line line) {
    int added =
        entities
            .createNativeQuery(
                """
                insert into line (slug, name, alkali, density15_kg_per_m3,
                    density15_standard_uncertainty, notes, version)
                values (?1, ?2, ?3, ?4, ?5, ?6, ?7) on conflict (slug) do nothing
                """)
            .setParameter(1, line.slug())
            .setParameter(2, line.name())
            .setParameter(3, line.alkali().id())
            .setParameter(4, line.density15KgPerM3())
            .setParameter(5, line.density15StandardUncertainty())
            .setParameter(6, line.notes())
            .setParameter(7, line.version())
            .executeUpdate();
    if (added == 1) {
      enter(line);
    }
    return added == 1;
  }

  private void enter(Line line) {
    ledger.enter(Deed.ofLine(line.slug(), Act.LINE_PUT, line.slug(), line));
  }

  @Override
  public void change(Line line) {
    entities.find(LineEntity.class, line.slug()).take(line);
    enter(line);
  }

  @Override
  public Optional<Stream> stream(String line, String slug) {
    return find("line = ?1 and slug = ?2", line, slug).firstResultOptional().map(this::toStream);
  }

  @Override
  public Optional<Stream> stream(UUID id) {
    return findByIdOptional(id).map(this::toStream);
  }

  @Override
  public Optional<Stream> underNoLine(String slug) {
    return find("line is null and slug = ?1", slug).firstResultOptional().map(this::toStream);
  }

  @Override
  public List<Stream> streamsAfter(String line, String slugExclusive, int most) {
    return find("line = ?1 and slug > ?2", Sort.by("slug"), line, slugExclusive)
        .page(0, most)
        .list()
        .stream()
        .map(this::toStream)
        .toList();
  }

  @Override
  public List<String> slugs(String line) {
    return entities
        .createQuery(
            "select slug from StreamEntity where line = :line"
                + " order by case when outlet is null then 0 else 1 end, slug",
            String.class)
        .setParameter("line", line)
        .getResultList();
  }

  @Override
  public List<UUID> idsWithin(Collection<String> lines) {
    return entities
        .createQuery("select id from StreamEntity where line is null or line in :lines", UUID.class)
        .setParameter("lines", lines)
        .getResultList();
  }

  @Override
  public List<Stream> removals(String line, String side) {
    return find(REMOVALS, Sort.by("slug"), line, side).list().stream().map(this::toStream).toList();
  }

  @Override
  public List<Stream> lockRemovals(String line, String side) {
    return find(REMOVALS, Sort.by("slug"), line, side)
        .withLock(LockModeType.PESSIMISTIC_WRITE)
        .list()
        .stream()
        .map(this::toStream)
        .toList();
  }

  @Override
  public void save(Stream stream, Instant recordedAt) {
    StreamEntity entity = findById(stream.id());
    int known = 0;
    if (entity == null) {
      entity = new StreamEntity();
      entity.take(stream);
      persist(entity);
    } else {
      known = specifications(stream.id()).size();
      entity.take(stream);
    }
    for (int i = known; i < stream.specifications().size(); i++) {
      entities.persist(
          SpecificationEntity.of(stream.id(), i + 1, stream.specifications().get(i), recordedAt));
    }
    ledger.enter(stream.id(), Act.STREAM_PUT, stream.slug(), stream);
  }

  @Override
  public Names names(UUID stream) {
    StreamEntity entity = findById(stream);
    return new Names(entity.line, entity.slug);
  }

  @Override
  public Optional<Stream> lock(String line, String slug) {
    return find("line = ?1 and slug = ?2", line, slug)
        .withLock(LockModeType.PESSIMISTIC_WRITE)
        .firstResultOptional()
        .map(this::toStream);
  }

  @Override
  public Optional<Stream> lock(UUID id) {
    return Optional.ofNullable(findById(id, LockModeType.PESSIMISTIC_WRITE)).map(this::toStream);
  }

  @Override
  public UUID nextIdentifier(UUID stream, Instant now) {
    StreamEntity entity = findById(stream);
    entity.lastIdentifier = RecordIdentifier.after(entity.lastIdentifier, now);
    return entity.lastIdentifier;
  }

  private Stream toStream(StreamEntity entity) {
    return entity.toStream(specifications(entity.id));
  }

  private List<DatedSpecification> specifications(UUID stream) {
    return entities
        .createQuery(
            "from SpecificationEntity where key.streamId = :stream order by key.number",
            SpecificationEntity.class)
        .setParameter("stream", stream)
        .getResultList()
        .stream()
        .map(SpecificationEntity::toSpecification)
        .toList();
  }
}
