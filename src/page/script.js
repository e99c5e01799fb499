/* SPDX-License-Identifier: MIT */
/* A little help that the page does without: values under the pointer, and one vessel followed through all charts. */
/* No character that is markup, so that XML and HTML read it alike. Comments on lines of their own are not built in. */
(function(){'use strict';
var NS='http://www.w3.org/2000/svg',main=document.querySelector('main');
function all(s,r){return Array.prototype.slice.call((r||document).querySelectorAll(s));}
function nums(t){return t.trim().split(/[ ,]+/).map(Number);}
function at(points,x){for(var i=2;points.length>i;i+=2){var a=points[i-2],b=points[i];if((a-x)*(b-x)>0)continue;return b===a?points[i+1]:points[i-1]+(points[i+1]-points[i-1])*(x-a)/(b-a);}return NaN;}
function hours(h,clock){var m=Math.round(60*(h+(clock||0))),d=Math.floor(m/1440);if(clock===null){return Math.floor(m/60)+' h '+('0'+m%60).slice(-2)+' min';}m=m-1440*d;return (d>0?'day '+(d+1)+' ':'')+('0'+Math.floor(m/60)).slice(-2)+':'+('0'+m%60).slice(-2);}
function plot(g){var svg=g.ownerSVGElement,fig=svg.parentNode,box=nums(g.dataset.box),xs=g.dataset.x.split(' '),ys=nums(g.dataset.y),clock=g.dataset.clock===undefined?null:Number(g.dataset.clock),curves=all('[data-name]',g).map(function(c){return{g:c,n:c.dataset.name,l:all('polyline',c).map(function(p){return nums(p.getAttribute('points'));})};}),read=document.createElement('div'),hair=document.createElementNS(NS,'line');
read.className='read';read.hidden=true;read.setAttribute('aria-hidden','true');fig.appendChild(read);hair.setAttribute('class','hair');hair.setAttribute('y1',box[1]);hair.setAttribute('y2',box[1]+box[3]);
function leave(){read.hidden=true;if(hair.parentNode)g.removeChild(hair);}
function move(e){var r=svg.getBoundingClientRect(),k=svg.viewBox.baseVal.width/r.width,x=(e.clientX-r.left)*k,u=(x-box[0])/box[2];if(0>u||u>1)return leave();
var X=Number(xs[0])+u*(xs[1]-xs[0]),lines=[];
curves.forEach(function(c){if(c.g.classList.contains('faint'))if(!c.g.classList.contains('followed'))return;c.l.forEach(function(p){var y=at(p,x);if(isNaN(y))return;var v=ys[0]+(ys[1]-ys[0])*(1-(y-box[1])/box[3]);lines.push([v,c.n+'  '+v.toPrecision(3)]);});});
if(lines.length===0)return leave();
lines.sort(function(a,b){return b[0]-a[0];});
read.textContent=(xs[2]?hours(X,clock):X.toPrecision(3))+'\n'+lines.map(function(l){return l[1];}).join('\n');
hair.setAttribute('x1',x);hair.setAttribute('x2',x);g.appendChild(hair);read.hidden=false;
var left=(e.clientX-r.left)+14;if(left+read.offsetWidth>r.width)left=Math.max(0,left-read.offsetWidth-28);read.style.left=left+'px';read.style.top=(box[1]/k)+'px';}
svg.addEventListener('pointermove',move);svg.addEventListener('pointerdown',move);svg.addEventListener('pointerleave',leave);}
all('figure g.plot').forEach(plot);
var names=all('.plant .vessel').map(function(g){return g.dataset.vessel;}),place=document.querySelector('#charts h2');
if(place)if(names.length>1){var row=document.createElement('p'),label=document.createElement('label'),select=document.createElement('select');
row.className='follow';label.textContent='Follow one vessel';label.htmlFor='follow';select.id='follow';
['(all alike)'].concat(names).forEach(function(n,i){var o=document.createElement('option');o.textContent=n;o.value=i?n:'';select.appendChild(o);});
select.addEventListener('change',function(){var n=select.value;main.classList.toggle('following',n!=='');
all('[data-vessel]').forEach(function(e){var on=n!==''?e.dataset.vessel===n:false;e.classList.toggle('followed',on);var f=e.closest('figure');if(f)if(e.classList.contains('core'))f.classList.toggle('followed',on);});});
row.appendChild(label);row.appendChild(select);place.parentNode.insertBefore(row,place.nextSibling);}
})();
