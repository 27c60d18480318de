import type { Advice, Assessment, RuleSetResult } from '@dwellset/core';
import {
  ASK_HEADING,
  adviceParts,
  type Content,
  complianceWords,
  conclusionWords,
  counted,
  endedWords,
  HEADINGS,
  noAdviceWords,
  noOptions,
  nothingLeftWords,
  optionsInOrder,
  optionsLeftWords,
  optionWords,
  populationWords,
  problemGroups,
  questionWords,
  rankWords,
  shownReasons,
  sourceWords,
  upperFirst,
} from '@dwellset/wording';
import type { ComponentChildren } from 'preact';
import { built } from '../../bench/client.ts';
import { Folded } from '../../parts/Folded.tsx';
import { Later } from '../../parts/Later.tsx';
import { OptionMark, OutcomeMark } from '../../parts/Mark.tsx';
import { address } from '../../route.ts';
import { words } from '../../words.ts';
import { ReasonTree } from '../reasons/Tree.tsx';
import { wanted } from './state.ts';

/** One assessment to be read from the top: do, why, ask, proof. Every text is put in as text. */
export function AssessmentView({
  assessment,
  children,
}: {
  assessment: Assessment;
  children?: ComponentChildren;
}) {
  const content: Content = {
    assessment,
    words: words.value,
    releases: Object.values(built.value.releases),
    zone: assessment.case.timeZone,
    findings: true,
  };
  const questions = questionWords(content);
  return (
    <div class="assessment">
      {assessment.advice.length === 0 ? (
        <section>
          <h2>Do</h2>
          <p>{noAdviceWords(content)}</p>
        </section>
      ) : (
        HEADINGS.map(([indicator, heading]) => {
          const spoken = assessment.advice.filter((advice) => advice.indicator === indicator);
          return spoken.length === 0 ? null : (
            <section key={indicator} class={indicator === 'critical' ? 'now' : undefined}>
              <h2>{heading}</h2>
              {spoken.map((advice) => (
                <AdviceEntry key={`${advice.id}-${advice.chosen ?? ''}`} advice={advice} content={content} />
              ))}
            </section>
          );
        })
      )}
      {assessment.ruleSets.map((set) => (
        <ComesTo key={set.id} set={set} content={content} />
      ))}
      {questions && (
        <section>
          <h2>{ASK_HEADING}</h2>
          <ol class="questions">
            {questions.asked.map(({ fact, question, said }) => (
              <li key={fact}>
                <a
                  href={`#q-${fact}`}
                  onClick={(event) => {
                    event.preventDefault();
                    wanted.value = fact;
                  }}
                >
                  {question}
                </a>
                <div class="aside">{said}</div>
              </li>
            ))}
          </ol>
          {questions.more !== undefined && <p class="aside">{questions.more}</p>}
        </section>
      )}
      {problemGroups(content).map(({ heading, texts }) => (
        <section key={heading}>
          <h2>{heading}</h2>
          <ul>
            {texts.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </section>
      ))}
      {children}
      <section>
        <h2>Proof, rule by rule</h2>
        {assessment.ruleSets.map((set) => (
          <Later key={set.id}>{() => <Proof set={set} content={content} />}</Later>
        ))}
      </section>
    </div>
  );
}

function AdviceEntry({ advice, content }: { advice: Advice; content: Content }) {
  const parts = adviceParts(advice, content).filter(({ label }) => label !== 'Source' && label !== 'Rule');
  return (
    <div class="advice">
      <p class="summary">{advice.summary}</p>
      <dl>
        {parts.map(({ label, texts, steps }) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>
              {texts.length === 1 ? (
                texts[0]
              ) : steps ? (
                <ol>
                  {texts.map((text) => (
                    <li key={text}>{text}</li>
                  ))}
                </ol>
              ) : (
                texts.map((text) => <div key={text}>{text}</div>)
              )}
            </dd>
          </div>
        ))}
        <div>
          <dt>Source</dt>
          <dd>
            <details>
              <summary>
                {advice.evidence[0]?.from[0] ? sourceWords(advice.evidence[0].from[0]) : 'None is cited'}
              </summary>
              <ul class="plain evidence">
                {advice.evidence.map(({ id, statement, from }) => (
                  <li key={id}>
                    {statement} <span class="id">{id}</span>
                    {from.map((item, index) => (
                      <div class="aside" key={index}>
                        {sourceWords(item)}
                      </div>
                    ))}
                  </li>
                ))}
              </ul>
            </details>
          </dd>
        </div>
        <div>
          <dt>Rule</dt>
          <dd>
            <a href={address(['set', advice.set, 'rule', advice.rule])}>{advice.id}</a>
          </dd>
        </div>
      </dl>
    </div>
  );
}

function ComesTo({ set, content }: { set: RuleSetResult; content: Content }) {
  const conclusion = conclusionWords(set, content);
  const compliance = complianceWords(set);
  const population = populationWords(set);
  const choices = (set.choices ?? []).filter((choice) => !noOptions(choice));
  if (!conclusion && !compliance && !population && choices.length === 0) return null;
  return (
    <section>
      <h2>{set.title}</h2>
      {population !== undefined && <p>{population}</p>}
      {conclusion && set.population !== 'out' && (
        <p class="summary">
          {conclusion.title} <span class="id">{conclusion.state}</span>
        </p>
      )}
      {compliance && set.population !== 'out' && <p>{compliance.summary}</p>}
      {choices.map((choice) => {
        const { title, state } = optionsLeftWords(choice);
        return (
          <div key={choice.of} class="table-scroller">
            <table class="cells">
              <caption>
                {title} <span class="id">{state}</span>
                {choice.nothingLeft && <p>{nothingLeftWords(set, choice.nothingLeft, content)}</p>}
              </caption>
              <thead>
                <tr>
                  <th scope="col">Rank</th>
                  <th scope="col">Option</th>
                  <th scope="col">State</th>
                </tr>
              </thead>
              <tbody>
                {[...optionsInOrder(choice), ...(choice.chosen ? [choice.chosen] : [])].map((option) => {
                  const { parts, remarks } = optionWords(set, option, content);
                  return (
                    <tr key={option.id}>
                      <td class="figure">{rankWords(option)}</td>
                      <th scope="row">
                        {option.title}
                        {remarks.map((text) => (
                          <div class="aside" key={text}>
                            {text}
                          </div>
                        ))}
                      </th>
                      <td>
                        <OptionMark state={option.state} /> {upperFirst(parts.join(' · '))}
                      </td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </div>
        );
      })}
    </section>
  );
}

function Proof({ set, content }: { set: RuleSetResult; content: Content }) {
  return (
    <div class="proof">
      <h3>
        {set.title} <span class="id">{counted(set.rules.length, 'rule')}</span>
      </h3>
      {set.rules.map((rule) => (
        <Folded
          key={rule.id}
          kind="rule"
          summary={
            <>
              <OutcomeMark outcome={rule.outcome} check={rule.check !== undefined} />{' '}
              <span class="name">{rule.title}</span> <span class="id">{endedWords(rule)}</span>
            </>
          }
        >
          {() => <ReasonTree reasons={shownReasons(rule)} words={content.words} zone={content.zone} />}
        </Folded>
      ))}
    </div>
  );
}
